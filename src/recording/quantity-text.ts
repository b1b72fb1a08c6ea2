import type { CalendarDate } from '../measure/calendar.ts';
import { writeDate } from '../measure/calendar.ts';
import type { Money } from '../measure/money.ts';
import type { Quantity } from '../measure/quantity.ts';

/** A quantity to its last digit, as the parser of quantities reads it: no comma between thousands. */
export const quantityText = ({ value, unit }: Quantity): string => `${value.toFixed()} ${unit.symbol}`;

export const dateText = (d: CalendarDate | null | undefined): string | undefined =>
  d ? writeDate(d) : undefined;

/** A price as the parser of prices reads it; a share of a price that does not end is kept to a thousandth of a hundredth. */
export const priceText = ({ amount, currency }: Money): string =>
  `${amount.decimalPlaces() > 5 ? amount.toDecimalPlaces(5).toFixed() : amount.toFixed()} ${currency}`;
