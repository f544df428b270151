import '../components/estimate/define.js';
import { openBrowserStore } from '../components/storage/browser-store.js';
import { lastOpen } from '../components/estimate/keeping-last.js';
import { beginWith } from './begin-with.js';

/** The demonstration estimates, by the word in the page's address. */
const ESTIMATES = ['van', 'plenum', 'brakes', 'empty'];

const asked = new URLSearchParams(location.search).get('estimate') ?? (lastOpen() === null ? 'van' : null);
const estimate = ESTIMATES.find((name) => name === asked);

/** What this made-up shop tells its customers about itself. */
const shop = {
  name: 'Quillbrook Motor Works (made up)',
  phone: '+1 303 555 0100',
  email: 'desk@quillbrook.example',
  address: '1 Harbour Lane, Anytown',
  timeZone: 'America/Denver',
  terms: 'Invented for the demonstration. Old parts are kept for you to see.',
};

const sheet = document.querySelector('baysheet-estimate')!;
sheet.shop = shop;
if (estimate !== undefined) {
  sheet.estimateSrc = `./${estimate}.estimate.json`;
  document.querySelector(`a[href="?estimate=${estimate}"]`)!.setAttribute('aria-current', 'page');
}
// The others are kept like any other, to begin with; the sheet keeps the one that it shows.
const others = ESTIMATES.filter((name) => name !== estimate).map((name) => `./${name}.estimate.json`);
await beginWith(others, openBrowserStore());
