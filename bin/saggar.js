#!/usr/bin/env node
import '../dist/start.js';
