import type { Reply } from '../../src/share/reply.js';
import { decisionsOf } from './answers.js';
import type { Person } from './confirm-step.js';
import { consentSentence } from './consent.js';
import type { CustomerView } from './customer-view.js';
import type { FullReader } from './full-reader.js';

/** The customer's answer as it stands on the page. @param hash of the sealed copy that is shown */
export function composeReply(view: CustomerView, reader: FullReader, { name, phone, email }: Person, hash: string): Reply {
  const { estimate } = view.copy;
  return {
    estimate: estimate.id,
    revision: estimate.revision,
    hash,
    at: new Date().toISOString(),
    name: plain(name),
    contact: phone.trim() !== '' ? { kind: 'phone', value: plain(phone) } : { kind: 'email', value: plain(email) },
    decisions: decisionsOf(view.answers),
    total: view.priced.totals.total,
    currency: view.priced.currency,
    locale: reader.locale,
    consent: plain(consentSentence(view, reader)),
  };
}

/** Without the characters that cannot be seen and would turn the order of others round. */
function plain(words: string): string {
  return words.replace(/[\u0000-\u001f\u007f-\u009f\u2028-\u202e\u2066-\u2069\ufeff]/g, '').trim();
}
