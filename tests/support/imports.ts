import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import ts from 'typescript';

export interface Import {
  /** A file of the project (`src/index.ts`), or a package by its name (`lit`, `node:fs`). */
  readonly to: string;
  /** Gone after compiling: `import type`, `export type`, or only `type` names. */
  readonly typeOnly: boolean;
}

/** What each file imports; files are named from the project's root with `/`. */
export type ImportGraph = ReadonlyMap<string, readonly Import[]>;

/** Reads the imports of every TypeScript file in the given folders. */
export function readImports(root: string, folders: readonly string[]): ImportGraph {
  const files = folders.flatMap((folder) => (existsSync(join(root, folder)) ? filesIn(join(root, folder)) : []));
  const named = files.filter((file) => /\.m?[tj]s$/.test(file) && !file.endsWith('.d.ts'));
  return new Map(named.map((file) => [nameOf(root, file), importsOf(root, file)]));
}

export function filesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((name) => join(folder, name))
    .filter((path) => statSync(path).isFile());
}

/** The package of a specifier: `lit/decorators.js` → `lit`, `@lit/task` → `@lit/task`. */
function packageOf(specifier: string): string {
  if (specifier.startsWith('node:')) return specifier;
  return specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/');
}

function importsOf(root: string, file: string): Import[] {
  const source = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest, true);
  const found: Import[] = [];
  const add = (specifier: ts.Node | undefined, typeOnly: boolean): void => {
    if (specifier === undefined || !ts.isStringLiteralLike(specifier)) return;
    found.push({ to: target(root, file, specifier.text), typeOnly });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node)) add(node.moduleSpecifier, isTypeImport(node.importClause));
    else if (ts.isExportDeclaration(node)) add(node.moduleSpecifier, node.isTypeOnly || hasOnlyTypes(node.exportClause));
    else if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)) add(node.argument.literal, true);
    else if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) add(node.arguments[0], false);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

function isTypeImport(clause: ts.ImportClause | undefined): boolean {
  if (clause === undefined) return false;
  return clause.isTypeOnly || (clause.name === undefined && hasOnlyTypes(clause.namedBindings));
}

function hasOnlyTypes(names: ts.NamedImportBindings | ts.NamedExportBindings | undefined): boolean {
  if (names === undefined || !(ts.isNamedImports(names) || ts.isNamedExports(names))) return false;
  return names.elements.length > 0 && names.elements.every((element) => element.isTypeOnly);
}

function target(root: string, from: string, specifier: string): string {
  if (!specifier.startsWith('.')) return packageOf(specifier);
  const path = resolve(from, '..', specifier.replace(/\?.*$/, ''));
  const source = path.replace(/\.js$/, '.ts');
  return nameOf(root, existsSync(source) ? source : path);
}

function nameOf(root: string, path: string): string {
  return relative(root, path).split(sep).join('/');
}

/**
 * Everything that loading `entry` loads, each with the shortest chain of imports that leads to it, entry first.
 * Type-only imports load nothing.
 */
export function reach(graph: ImportGraph, entry: string): Map<string, readonly string[]> {
  const chains = new Map<string, readonly string[]>([[entry, [entry]]]);
  for (const [name, chain] of chains) {
    for (const { to, typeOnly } of graph.get(name) ?? []) {
      if (!typeOnly && !chains.has(to)) chains.set(to, [...chain, to]);
    }
  }
  return chains;
}
