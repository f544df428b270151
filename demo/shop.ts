import '../components/estimate/define.js';

/** The demonstration estimates, by the word in the page's address. */
const ESTIMATES = ['van', 'plenum', 'brakes', 'empty'];

const asked = new URLSearchParams(location.search).get('estimate') ?? 'van';
const estimate = ESTIMATES.includes(asked) ? asked : 'van';

document.querySelector('baysheet-estimate')!.estimateSrc = `./${estimate}.estimate.json`;
document.querySelector(`a[href="?estimate=${estimate}"]`)!.setAttribute('aria-current', 'page');
