/** An id made from words, like none of those in use: "Renew one heater hose" → `renew-one-heater-hose`. */
export function idFromWords(words: string, inUse: { has(id: string): boolean }): string {
  const plain = words
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/ß/g, 'ss')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');
  const id = (plain === '' ? 'entry' : plain).slice(0, 56).replace(/-$/, '');
  if (!inUse.has(id)) return id;
  for (let n = 2; ; n += 1) if (!inUse.has(`${id}-${n}`)) return `${id}-${n}`;
}
