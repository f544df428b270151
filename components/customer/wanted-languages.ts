/** Languages in the order in which they are wanted: the element's own, that of what it stands in (through shadow roots), the browser's. */
export function wantedLanguages(element: Element, own: string): string[] {
  const wanted = [own];
  for (let at: Node | null = element; at !== null; at = at instanceof ShadowRoot ? at.host : at.parentNode) {
    const lang = at instanceof Element ? at.getAttribute('lang') : null;
    if (lang) {
      wanted.push(lang);
      break;
    }
  }
  return [...wanted, ...navigator.languages];
}
