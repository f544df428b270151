/**
 * Stands in for `moment`, `pikaday` and `numbro`. The grid library imports them for its date and number cell
 * types, which a sheet never uses: figures are text here, and are read by our own decimal arithmetic.
 */
export default {};
