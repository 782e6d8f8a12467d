const prices = new Intl.NumberFormat('en-GB', { minimumFractionDigits: 2, maximumFractionDigits: 2 });

/** What parts cost, in the shop’s own currency, in groups of three as the other figures. */
export function priceFigure(price: number): string {
  return prices.format(price);
}
