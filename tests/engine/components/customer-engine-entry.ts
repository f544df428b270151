/** What the test of the light libraries builds with them. */
export { priceEstimate } from '../../../src/pricing/price-estimate.js';
export { fitToBudget } from '../../../src/share/budget.js';
