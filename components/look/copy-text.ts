/**
 * Puts a text on the clipboard; false where the browser will not. Pages on plain http have no clipboard of the newer
 * kind, so there the older way is taken: select and copy.
 *
 * @param near where a field may stand for a moment; inside the dialog while one is open, since all else cannot be reached
 */
export async function copyText(text: string, near: ParentNode & Node): Promise<boolean> {
  const written = await globalThis.navigator.clipboard?.writeText(text).then(
    () => true,
    () => false,
  );
  return written ?? copySelected(text, near);
}

function copySelected(text: string, near: ParentNode & Node): boolean {
  const before = activeIn(near);
  const field = (near.ownerDocument ?? document).createElement('textarea');
  field.value = text;
  field.setAttribute('aria-hidden', 'true');
  field.className = 'unseen';
  near.append(field);
  field.select();
  try {
    return document.execCommand('copy');
  } finally {
    field.remove();
    before?.focus();
  }
}

function activeIn(near: Node): HTMLElement | null {
  return (near.getRootNode() as ShadowRoot | Document).activeElement as HTMLElement | null;
}
