"""Yardstick: PyYAML's C loader reads every YAML file of a folder, in one process."""

import os
import sys

import yaml

for folder, folders, names in os.walk(sys.argv[1]):
    folders[:] = [name for name in folders if not name.startswith(".")]
    for name in names:
        if name.endswith(".yaml"):
            with open(os.path.join(folder, name), "rb") as file:
                yaml.load(file, Loader=yaml.CSafeLoader)
