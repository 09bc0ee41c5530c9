/** Yardstick: the yaml package parses every YAML file of a folder, in one process. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { parse } from 'yaml';

const folder = process.argv[2] ?? '.';
for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true }))
  if (entry.isFile() && entry.name.endsWith('.yaml'))
    parse(readFileSync(join(entry.parentPath, entry.name), 'utf8'));
