/**
 * The check of an answer before it leaves the customer's page. The page has made it itself of fields that were checked
 * one by one, so only what comes from outside is looked at: the estimate, and the `hash` that a host may set. The sheet
 * checks every field when it opens the answer.
 */
import type { Reply } from '../../../src/share/reply.js';

export function checkReply(value: unknown): { readonly ok: true; readonly reply: Reply } | { readonly ok: false; readonly path: string } {
  const reply = value as Reply;
  if (!/^[A-Za-z0-9._-]{1,64}$/.test(reply.estimate)) return { ok: false, path: 'estimate' };
  if (!/^[A-Za-z0-9_-]{42}[AEIMQUYcgkosw048]$/.test(reply.hash)) return { ok: false, path: 'hash' };
  return { ok: true, reply };
}
