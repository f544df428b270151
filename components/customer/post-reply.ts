import type { ReplyDetail } from './events.js';

/** Brings an answer to the shop's server; false where it does not take it. */
export async function postReply(address: string, detail: ReplyDetail): Promise<boolean> {
  try {
    const response = await fetch(address, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(detail),
      signal: AbortSignal.timeout(20_000),
    });
    return response.ok;
  } catch {
    return false;
  }
}
