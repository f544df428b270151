import js from '@eslint/js';
import lit from 'eslint-plugin-lit';
import litA11y from 'eslint-plugin-lit-a11y';
import wc from 'eslint-plugin-wc';
import { defineConfig, globalIgnores } from 'eslint/config';
import ts from 'typescript-eslint';

/** Folders that may not be imported, as the fault says it. */
function not(folders, why) {
  return ['error', { patterns: [{ group: folders.map((folder) => `**/${folder}/**`), message: why }] }];
}

export default defineConfig(
  globalIgnores(['dist/', 'dist-demo/', 'docs/', 'coverage/', 'rates/', 'test-output/']),
  js.configs.recommended,
  ts.configs.recommendedTypeChecked,
  {
    // `.vue` is left to vue-tsc: there are two short files of it, in a demonstration of another framework.
    languageOptions: {
      parserOptions: {
        projectService: true,
        tsconfigRootDir: import.meta.dirname,
      },
    },
    linterOptions: { reportUnusedDisableDirectives: 'error' },
    rules: {
      eqeqeq: ['error', 'always', { null: 'ignore' }],
      'no-console': ['error', { allow: ['warn'] }],
      // Hostile text is looked for by its control characters.
      'no-control-regex': 'off',
      '@typescript-eslint/consistent-type-imports': ['error', { disallowTypeAnnotations: false }],
      // A list of events joins that of the browser by extending it, and adds nothing.
      '@typescript-eslint/no-empty-object-type': ['error', { allowInterfaces: 'with-single-extends' }],
      // A literal beside `string` tells the reader which text means something else.
      '@typescript-eslint/no-redundant-type-constituents': 'off',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_', ignoreRestSiblings: true }],
      // What was caught is thrown on as it is, and so is the reason of a signal.
      '@typescript-eslint/prefer-promise-reject-errors': ['error', { allowThrowingUnknown: true }],
      // A function may be async for its type alone: what implements a port, say.
      '@typescript-eslint/require-await': 'off',
      '@typescript-eslint/restrict-template-expressions': 'off',
    },
  },
  // The outermost folders only: tests/engine/direction.test.ts walks all imports, between the folders of src too, and names the chain.
  { files: ['src/**'], rules: { 'no-restricted-imports': not(['components', 'demo', 'tests'], 'The engine imports nothing above it.') } },
  { files: ['components/**'], rules: { 'no-restricted-imports': not(['demo', 'tests'], 'Elements import the engine and each other.') } },
  { files: ['demo/**'], rules: { 'no-restricted-imports': not(['tests'], 'Only tests import from tests.') } },
  {
    files: ['components/**/*.ts'],
    extends: [wc.configs['flat/best-practice'], lit.configs['flat/recommended'], litA11y.configs.recommended],
    rules: {
      // The listeners of an element are typed by an interface beside its class; EventTarget has what that declares.
      '@typescript-eslint/no-unsafe-declaration-merging': 'off',
      // Lit calls listeners with the element as `this`.
      '@typescript-eslint/unbound-method': 'off',
      // In a dialog, autofocus says where the focus begins.
      'lit-a11y/no-autofocus': 'off',
    },
  },
  {
    // Tests look at whatever comes, and programs of the terminal print.
    files: ['tests/**', 'demo/**/*.{ts,tsx}'],
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
  // What Node knows is known to the compiler, and these two belong to no project of it.
  { files: ['**/*.mjs', '**/*.js'], rules: { 'no-undef': 'off' } },
  { files: ['*.js', '*.mjs'], extends: [ts.configs.disableTypeChecked] },
);
