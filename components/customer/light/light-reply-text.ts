/**
 * The writing of an answer without its reading, which is the sheet's business. What is written where is described in
 * `src/share/reply-text.ts` for both; that this says the same is tested.
 */
import { ShareFault } from '../../../src/share/fault.js';
import type { Reply } from '../../../src/share/reply.js';
import { frameReply } from '../../../src/share/reply-frame.js';
import { checkReply } from './light-reply.js';

export async function sealReply(reply: Reply): Promise<string> {
  const checked = checkReply(reply);
  if (!checked.ok) throw new ShareFault('reply', `The answer cannot be made: "${checked.path}" is missing or wrong.`);
  const { estimate, revision, hash, at, name, contact, decisions, total, currency, locale, consent } = reply;
  const lines = (answer: string): string =>
    Object.keys(decisions)
      .filter((line) => decisions[line] === answer)
      .join(',');
  return frameReply([
    estimate,
    revision === 1 ? '' : String(revision),
    hash,
    at,
    name,
    { phone: '1', email: '2' }[contact.kind as string] ?? '',
    contact.value,
    lines('approved'),
    lines('declined'),
    lines('deferred'),
    total,
    currency,
    locale,
    consent,
  ]);
}
