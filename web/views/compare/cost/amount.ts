import { number } from '../../../language/figures.ts';
import { prices } from '../../../preferences/prices.ts';

/** Money as people write it, with the currency where one was named; what is less than a tenth with two figures more. */
export function amount(value: number): string {
  return withCurrency(number(value, value >= 1000 ? 0 : value >= 0.1 ? 2 : 4));
}

/** For sentence and picture: what is uncertain by far more than its cents goes without them. */
export function roundAmount(value: number): string {
  return value >= 100 ? withCurrency(number(value, 0)) : amount(value);
}

function withCurrency(figure: string): string {
  const currency = prices.value.currency.trim();
  return currency ? `${figure}\u00a0${currency}` : figure;
}
