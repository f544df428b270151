/** What the test of the light libraries builds with them. */
export { priceEstimate } from '../../../src/pricing/price-estimate.js';
export { fitToBudget } from '../../../src/share/budget.js';
export { indexCatalogue } from '../../../src/overlap/catalogue-index.js';
export { Pricer } from '../../../src/pricing/pricer.js';
export { indexRates } from '../../../src/pricing/rate-index.js';
