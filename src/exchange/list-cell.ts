/**
 * Several texts in one cell: with a semicolon and a blank between them. A semicolon or a backslash in a text, and a
 * blank at its edge, has a backslash before it, so that every list comes back as it was.
 */
export function printList(items: readonly string[]): string {
  return items.map((item) => item.replace(/[\\;]|^\s|\s$/g, '\\$&')).join('; ');
}

/** The texts of a cell; empty ones between two semicolons are none. */
export function readList(cell: string): string[] {
  return split(cell, ';')
    .map(bare)
    .filter((item) => item !== '');
}

/** Ids of a cell: they hold no blanks, commas or semicolons, so people may put any of them between. */
export function readIds(cell: string): string[] {
  return [...new Set(cell.split(/[\s,;]+/).filter((id) => id !== ''))];
}

/** Pieces between unescaped marks, escapes still in them. */
function split(cell: string, mark: string): string[] {
  const pieces = [''];
  for (let i = 0; i < cell.length; i += 1) {
    const c = cell[i]!;
    if (c === '\\' && i + 1 < cell.length) pieces[pieces.length - 1] += c + cell[(i += 1)]!;
    else if (c === mark) pieces.push('');
    else pieces[pieces.length - 1] += c;
  }
  return pieces;
}

/** A piece without the blanks around it and without its backslashes. */
function bare(piece: string): string {
  const trimmed = piece.replace(/^\s+/, '').replace(/(\\\s)?\s*$/, '$1');
  return trimmed.replace(/\\([\s\S])/g, '$1');
}
