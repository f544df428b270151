/** Where each source module of an element is found in the package. */
const SHIPPED = new Map([
  ['components/estimate/baysheet-estimate.ts', 'dist/estimate.class.js'],
  ['components/estimate/define.ts', 'dist/estimate.define.js'],
]);

/** The manifest is for whoever uses the elements: only modules that can be imported, under the names that they are imported by. */
const shippedModules = {
  name: 'shipped-modules',
  packageLinkPhase({ customElementsManifest: manifest }) {
    manifest.modules = manifest.modules.filter(({ path }) => SHIPPED.has(path));
    rename(manifest);
  },
};

/** References between modules (`declaration.module`, `inheritedFrom.module`) carry the path too, as it is imported. */
function rename(node) {
  if (typeof node !== 'object' || node === null) return;
  for (const [key, value] of Object.entries(node)) {
    if (typeof value !== 'string') rename(value);
    else if (key === 'path' || key === 'module') node[key] = SHIPPED.get(value.replace(/^\//, '').replace(/\.js$/, '.ts')) ?? value;
  }
}

export default {
  globs: ['components/*/baysheet-*.ts', 'components/*/define.ts'],
  outdir: 'dist',
  litelement: true,
  plugins: [shippedModules],
};
