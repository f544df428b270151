export default {
  globs: ['components/**/*.ts'],
  exclude: ['**/*.d.ts', 'components/grid/absent/**'],
  outdir: 'dist',
  litelement: true,
};
