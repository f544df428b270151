/** Styles of lit for one element whose style sheets are all written out: no values inside, nothing shared with other elements. */
export class CSSResult {
  private sheet: CSSStyleSheet | null = null;

  constructor(readonly cssText: string) {}

  get styleSheet(): CSSStyleSheet {
    if (this.sheet === null) {
      this.sheet = new CSSStyleSheet();
      this.sheet.replaceSync(this.cssText);
    }
    return this.sheet;
  }
}

export function css(texts: readonly string[]): CSSResult {
  return new CSSResult(texts[0]!);
}

export const unsafeCSS = (text: unknown): CSSResult => new CSSResult(String(text));

/** Safari has them since 16.4. */
export const supportsAdoptingStyleSheets = 'adoptedStyleSheets' in Document.prototype && 'replace' in CSSStyleSheet.prototype;

export function adoptStyles(root: ShadowRoot, styles: readonly CSSResult[]): void {
  if (supportsAdoptingStyleSheets) {
    root.adoptedStyleSheets = styles.map((style) => style.styleSheet);
    return;
  }
  for (const { cssText } of styles) {
    const style = document.createElement('style');
    const nonce = (globalThis as { litNonce?: string }).litNonce;
    if (nonce !== undefined) style.nonce = nonce;
    style.textContent = cssText;
    root.append(style);
  }
}

export function getCompatibleStyle<T>(style: T): T {
  return style;
}
