import '../../../components/customer/define.js';
import type { BaysheetCustomer } from '../../../components/customer/baysheet-customer.js';
import type { ReplyDetail } from '../../../components/customer/events.js';
import type { CustomerCopy } from '../../../src/share/customer-copy.js';

/** What the elements have announced, for the tests to read. */
const heard: { type: string; detail: unknown }[] = [];
let isTaking = false;
document.addEventListener('baysheet-reply', (event) => {
  heard.push({ type: event.type, detail: event.detail });
  if (isTaking) event.preventDefault();
});
document.addEventListener('baysheet-problem', (event) => heard.push({ type: event.type, detail: (event as CustomEvent).detail }));

/** A new element with these properties, in the page or in a shadow root. */
async function show(properties: Partial<BaysheetCustomer> & { copy?: CustomerCopy | null }, inShadow = false): Promise<void> {
  const main = document.querySelector('main')!;
  const element = Object.assign(document.createElement('baysheet-customer'), properties);
  const host = inShadow ? main.appendChild(document.createElement('div')).attachShadow({ mode: 'open' }) : main;
  host.append(element);
  await element.updateComplete;
}

declare global {
  interface Window {
    customer: {
      readonly show: typeof show;
      readonly heard: { type: string; detail: unknown }[];
      /** The page takes the answer itself from now on. */
      take(): void;
      readonly replies: () => ReplyDetail[];
    };
  }
}

window.customer = {
  show,
  heard,
  take: () => (isTaking = true),
  replies: () => heard.filter(({ type }) => type === 'baysheet-reply').map(({ detail }) => detail as ReplyDetail),
};
document.documentElement.dataset['ready'] = 'true';
