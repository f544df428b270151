/** Where each source module of an element is found in the package. */
const SHIPPED = new Map([
  ['components/estimate/baysheet-estimate.ts', 'dist/estimate.class.js'],
  ['components/estimate/define.ts', 'dist/estimate.define.js'],
  ['components/customer/baysheet-customer.ts', 'dist/customer.class.js'],
  ['components/customer/define.ts', 'dist/customer.define.js'],
  ['components/rates/baysheet-rates.ts', 'dist/rates.class.js'],
  ['components/rates/define.ts', 'dist/rates.define.js'],
]);

/** `define('baysheet-estimate', BaysheetEstimate)` registers as `customElements.define` does, which alone is known here. */
const ownDefine = {
  name: 'own-define',
  analyzePhase({ ts, node, moduleDoc }) {
    if (!ts.isCallExpression(node) || node.expression.getText() !== 'define') return;
    const [tag, element] = node.arguments;
    if (!ts.isStringLiteral(tag)) return;
    const name = element.getText();
    const from = node
      .getSourceFile()
      .statements.find((statement) => ts.isImportDeclaration(statement) && statement.importClause?.getText().includes(name));
    const module = new URL(from.moduleSpecifier.text, `file:///${moduleDoc.path}`).pathname;
    moduleDoc.exports = [
      ...(moduleDoc.exports ?? []),
      { kind: 'custom-element-definition', name: tag.text, declaration: { name, module } },
    ];
  },
  packageLinkPhase({ customElementsManifest: { modules } }) {
    const definitions = modules.flatMap(({ exports = [] }) => exports.filter(({ kind }) => kind === 'custom-element-definition'));
    for (const { declarations = [] } of modules) {
      for (const declaration of declarations) {
        const definition = definitions.find((each) => each.declaration.name === declaration.name);
        if (definition !== undefined) Object.assign(declaration, { customElement: true, tagName: definition.name });
      }
    }
  },
};

/** The manifest is for whoever uses the elements: only modules that can be imported, under the names that they are imported by. */
const shippedModules = {
  name: 'shipped-modules',
  packageLinkPhase({ customElementsManifest: manifest }) {
    manifest.modules = manifest.modules.filter(({ path }) => SHIPPED.has(path));
    for (const { declarations = [] } of manifest.modules) {
      for (const declaration of declarations)
        declaration.members = (declaration.members ?? []).filter(({ privacy }) => privacy !== 'private');
    }
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
  globs: [...SHIPPED.keys()],
  outdir: 'dist',
  packagejson: false,
  litelement: true,
  plugins: [ownDefine, shippedModules],
};
