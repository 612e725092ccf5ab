import jsdoc from 'eslint-plugin-jsdoc';
import regexp from 'eslint-plugin-regexp';
import tseslint from 'typescript-eslint';

const houseRules = [
  {
    selector:
      'TSNonNullExpression[expression.type!="MemberExpression"], TSNonNullExpression[expression.computed=false]',
    message: '`!` only right after an index that the loop bounds: samples[i]!',
  },
  {
    selector:
      'TSAsExpression > TSTypeReference[typeName.name=/^(RealMm|PrintMm|Px|Dpi|ModelScale)$/]',
    message:
      'outside units/ nobody brands a number: call realMm(), printMm(), px(), dpi() or modelScale()',
  },
];

export default tseslint.config(
  { ignores: ['**/dist/', '**/node_modules/', 'out/', 'coverage/', 'packages/core/docs/'] },
  {
    files: ['**/*.ts'],
    extends: [
      ...tseslint.configs.strictTypeChecked,
      ...tseslint.configs.stylisticTypeChecked,
      jsdoc.configs['flat/recommended-tsdoc-error'],
    ],
    languageOptions: {
      parserOptions: {
        projectService: { allowDefaultProject: ['vitest.config.ts', 'vitest.mutate.config.ts'] },
        tsconfigRootDir: import.meta.dirname,
      },
    },
    linterOptions: { reportUnusedDisableDirectives: 'error' },
    plugins: { regexp },
    rules: {
      // What is matched may come from a stranger's file, and be long.
      'regexp/no-super-linear-backtracking': ['error', { report: 'potential' }],
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
      'max-lines': ['error', { max: 300, skipBlankLines: true, skipComments: true }],
      'max-params': ['error', 4],
      complexity: ['error', 12],
      'jsdoc/require-throws-type': 'off',
      'jsdoc/tag-lines': ['error', 'any', { startLines: 1 }],
      'jsdoc/require-jsdoc': [
        'error',
        {
          publicOnly: true,
          contexts: ['TSInterfaceDeclaration', 'TSTypeAliasDeclaration', 'TSPropertySignature'],
        },
      ],
      'jsdoc/informative-docs': 'error',
      'no-restricted-syntax': ['error', ...houseRules],
      'no-console': 'error',
    },
  },
  {
    files: ['packages/core/src/units/**'],
    rules: { 'no-restricted-syntax': ['error', houseRules[0]] },
  },
  {
    files: ['packages/core/src/**'],
    ignores: ['packages/core/src/{read,write,job}/**'],
    rules: { 'no-restricted-globals': ['error', 'Buffer', 'process'] },
  },
  {
    files: ['tests/**/*.ts', 'fixtures/**/*.ts'],
    rules: {
      'jsdoc/require-jsdoc': 'off',
      'no-console': 'off',
      'max-params': 'off',
      '@typescript-eslint/no-floating-promises': [
        'error',
        {
          allowForKnownSafeCalls: [
            { from: 'package', package: 'vitest', name: ['test', 'describe'] },
          ],
        },
      ],
    },
  },
);
