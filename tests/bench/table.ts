/** How the bench prints. */

export function times2(ratio: number): string {
  return `${ratio >= 100 ? ratio.toFixed(0) : ratio.toFixed(2)} x`;
}

/** @param about what the columns say */
export function print(title: string, about: string, headings: readonly string[], rows: readonly (readonly string[])[]): void {
  const all = [headings, ...rows];
  const widths = headings.map((_, i) => Math.max(...all.map((row) => row[i]!.length)));
  const [head, ...body] = all.map((row) =>
    row.map((cell, i) => (i === 0 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!))).join('  '),
  );
  console.log(`\n${title}\n${about}\n\n${head}\n${'-'.repeat(head!.length)}\n${body.join('\n')}\n`);
}
