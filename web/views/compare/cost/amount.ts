import { number } from '../../../language/figures.ts';
import { prices } from '../../../preferences/prices.ts';

/**
 * An amount of money as people write it, with the currency where one was named; an amount below a tenth has two more
 * digits.
 */
export function amount(value: number): string {
  return withCurrency(number(value, value >= 1000 ? 0 : value >= 0.1 ? 2 : 4));
}

/** For sentence and picture: without cents where the uncertainty is much larger. */
export function roundAmount(value: number): string {
  return value >= 100 ? withCurrency(number(value, 0)) : amount(value);
}

function withCurrency(figure: string): string {
  const currency = prices.value.currency.trim();
  return currency ? `${figure}\u00a0${currency}` : figure;
}
