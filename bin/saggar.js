#!/usr/bin/env node
import '../dist/cli.cjs';
