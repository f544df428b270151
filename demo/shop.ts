import '../components/estimate/define.js';

/** The demonstration estimates, by the word in the page's address. */
const ESTIMATES = ['van', 'plenum', 'brakes', 'empty'];

const asked = new URLSearchParams(location.search).get('estimate') ?? 'van';
const estimate = ESTIMATES.includes(asked) ? asked : 'van';

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
sheet.estimateSrc = `./${estimate}.estimate.json`;
document.querySelector(`a[href="?estimate=${estimate}"]`)!.setAttribute('aria-current', 'page');
