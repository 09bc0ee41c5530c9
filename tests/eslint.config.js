// Lint: typed rules everywhere, and the limits of size that keep each function on one screen.
import { resolve } from 'node:path';
import js from '@eslint/js';
import { defineConfig } from 'eslint/config';
import tseslint from 'typescript-eslint';

const ROOT = resolve(import.meta.dirname, '..');

export default defineConfig(
  {
    ignores: [
      'dist/',
      'coverage/',
      'schema/generated/',
      'tests/fixtures/',
      'tests/old-studios/',
      'example-studio/',
    ],
  },
  js.configs.recommended,
  tseslint.configs.strictTypeChecked,
  tseslint.configs.stylisticTypeChecked,
  {
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: ROOT } },
    rules: {
      'max-lines': ['error', { max: 300 }],
      'max-lines-per-function': ['error', { max: 50, skipBlankLines: true, skipComments: true }],
      'max-depth': ['error', 2],
      'max-params': ['error', 3],
      'no-restricted-exports': ['error', { restrictDefaultExports: { direct: true } }],
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
      '@typescript-eslint/explicit-module-boundary-types': 'error',
      eqeqeq: 'error',
    },
  },
  {
    files: ['tests/**'],
    rules: { 'max-lines-per-function': 'off', '@typescript-eslint/no-non-null-assertion': 'off' },
  },
  {
    // Plain JavaScript states its types in JSDoc, which tsc checks and this rule does not see.
    files: ['**/*.js'],
    rules: { '@typescript-eslint/explicit-module-boundary-types': 'off' },
  },
  {
    // What starts the program is a CommonJS module, which Node loads sooner.
    files: ['bin/**'],
    rules: { '@typescript-eslint/no-require-imports': 'off', 'no-undef': 'off' },
  },
  { files: ['tests/*.config.js'], rules: { 'no-restricted-exports': 'off' } },
);
