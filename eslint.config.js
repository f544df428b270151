import js from '@eslint/js';
import lit from 'eslint-plugin-lit';
import litA11y from 'eslint-plugin-lit-a11y';
import wc from 'eslint-plugin-wc';
import { defineConfig, globalIgnores } from 'eslint/config';
import ts from 'typescript-eslint';

// Which folder may import which is checked by tests/engine/direction.test.ts, which names the chain.
export default defineConfig(
  globalIgnores(['dist/', 'dist-demo/', 'docs/', 'coverage/', 'rates/', 'test-output/', '**/*.mjs', '**/*.js']),
  js.configs.recommended,
  ts.configs.recommendedTypeChecked,
  {
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    linterOptions: { reportUnusedDisableDirectives: 'error' },
    rules: {
      eqeqeq: ['error', 'always', { null: 'ignore' }],
      'no-console': ['error', { allow: ['warn'] }],
      // Hostile text is looked for by its control characters.
      'no-control-regex': 'off',
      '@typescript-eslint/consistent-type-imports': ['error', { disallowTypeAnnotations: false }],
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_', ignoreRestSiblings: true }],
      // A function may be async for its type alone: what implements a port, say.
      '@typescript-eslint/require-await': 'off',
      '@typescript-eslint/restrict-template-expressions': 'off',
    },
  },
  {
    files: ['components/**/*.ts'],
    extends: [wc.configs['flat/best-practice'], lit.configs['flat/recommended'], litA11y.configs.recommended],
    rules: {
      // Lit calls listeners with the element as `this`.
      '@typescript-eslint/unbound-method': 'off',
      // In a dialog, autofocus says where the focus begins.
      'lit-a11y/no-autofocus': 'off',
    },
  },
  {
    // Tests look at whatever comes, and programs of the terminal print.
    files: ['tests/**/*.ts', 'demo/**/*.{ts,tsx}'],
    rules: {
      'no-console': 'off',
      '@typescript-eslint/no-explicit-any': 'off',
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-call': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
      '@typescript-eslint/unbound-method': 'off',
    },
  },
);
