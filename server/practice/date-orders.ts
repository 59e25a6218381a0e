/** In which order people of a country write the numbers of a day with slashes. From memory; custom, not law. */

export type DateOrder = 'month first' | 'day first' | 'year first';

/** Countries that are not listed, and those that use several (Canada), have no order that could be relied on. */
export const DATE_ORDERS: Readonly<Record<DateOrder, readonly string[]>> = {
  'month first': ['US'],
  'day first': [
    'GB',
    'IE',
    'AU',
    'NZ',
    'DE',
    'AT',
    'CH',
    'FR',
    'ES',
    'IT',
    'NL',
    'BE',
    'DK',
    'NO',
    'FI',
    'PL',
    'CZ',
    'PT',
    'LU',
  ],
  'year first': ['SE', 'LT', 'HU', 'JP', 'CN', 'KR'],
};

/** @param region ISO 3166 code, with or without subdivision */
export function dateOrderIn(region: string | undefined): DateOrder | undefined {
  const country = region?.split('-')[0];
  if (country === undefined) return undefined;
  return (Object.keys(DATE_ORDERS) as DateOrder[]).find(order => DATE_ORDERS[order].includes(country));
}
