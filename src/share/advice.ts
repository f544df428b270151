/** Something an advisor should know about a link before sending it. */
export interface Advice {
  readonly code: 'long-for-messages' | 'use-file' | 'no-qr';
  readonly message: string;
}

/**
 * Characters of a link. Beyond `messages` a text message becomes a long row of parts, some of which get lost; beyond
 * `link` mail and chat programs cut addresses; beyond `qr` a printed code gets too fine for a telephone's camera.
 * Common practice, no source.
 */
export const LINK_LIMITS = { qr: 1_000, messages: 2_000, link: 8_000 } as const;

export function adviceFor(length: number): Advice[] {
  const advice: Advice[] = [];
  const has = `The link has ${length} characters`;
  if (length > LINK_LIMITS.link) advice.push({ code: 'use-file', message: `${has}: many programs would cut it. Send the file instead.` });
  else if (length > LINK_LIMITS.messages)
    advice.push({ code: 'long-for-messages', message: `${has}: too many for a text message. Send it by mail, or send the file.` });
  if (length > LINK_LIMITS.qr)
    advice.push({ code: 'no-qr', message: `${has}: a QR code of more than ${LINK_LIMITS.qr} is too fine to read off a screen or paper.` });
  return advice;
}
