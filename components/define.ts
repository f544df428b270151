/** What pages see when two copies of Baysheet meet. */
export const VERSION = '0.1.0';

/**
 * Registers an element. Where the name is taken already (the script was loaded twice, or in two versions) the first
 * registration stays and the console says so; a page never breaks over it.
 */
export function define(name: string, element: CustomElementConstructor): void {
  const registry = globalThis.customElements;
  if (registry === undefined) return;
  const known: (CustomElementConstructor & { version?: string }) | undefined = registry.get(name);
  if (known === undefined) registry.define(name, element);
  else if (known !== element) {
    console.warn(`<${name}> is registered already (version ${known.version ?? 'unknown'}); this copy (${VERSION}) is not used.`);
  }
}
