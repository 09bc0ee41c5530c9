/** What people call the amounts of the tax summary. */
import type { Book } from '../../book.ts';
import { decimal, roundTo, type Decimal } from '../../number/decimal.ts';
import type { CATEGORIES } from '../../reckon/tax/tax-sheet.ts';
import type { TaxAmount } from '../../reckon/tax/tax-view.ts';

/** Spending categories of the file format. */
const CATEGORY_WORDS: Readonly<Record<(typeof CATEGORIES)[number], string>> = {
  advertising: 'Advertising',
  booth: 'Booth fees',
  travel: 'Travel',
  meals: 'Meals',
  car: 'Car',
  commissions: 'Commissions',
  contract: 'Contract work',
  wages: 'Wages',
  insurance: 'Insurance',
  interest: 'Interest',
  professional: 'Legal and professional',
  office: 'Office',
  'rent-equipment': 'Rent of equipment',
  'rent-place': 'Rent of the studio',
  repairs: 'Repairs',
  'kiln-parts': 'Kiln parts',
  tools: 'Tools',
  supplies: 'Supplies',
  packing: 'Packing',
  'freight-out': 'Post and freight',
  utilities: 'Power, water and gas',
  licences: 'Licences',
  education: 'Education',
  bank: 'Bank',
  home: 'Use of the home',
  other: 'Other',
};

const AMOUNT_WORDS: Readonly<Record<string, string>> = {
  classes: 'Classes',
  shipping: 'Shipping charged',
  firing: 'Firing for others',
  'other-income': 'Other work and receipts',
  'outside-trade': 'Interest, grants and other income',
  'missing-pieces': 'From galleries for missing pieces',
  discounts: 'Discounts',
  returns: 'Returns',
  'advances.taken': 'Deposits and certificates taken',
  'advances.used': 'Less deposits and certificates used',
};

/** Amounts that are of one channel or category. */
const OF_SOMETHING = /^(sales|consignment|expense)\.(.*)$/;

/** The name of an amount: of a channel's sales, of a category, or its own. */
export function amountName({ channels }: Book, { item, counts }: TaxAmount): string {
  if (item === 'expense.mileage') return 'Car, by the rate for the distance';
  if (counts === 'card-fees') return 'Card and shop fees';
  if (counts === 'gallery-commissions') return 'Commission of galleries';
  const [, head, of = ''] = OF_SOMETHING.exec(item) ?? [];
  if (head === 'expense') return categoryName(of);
  const sales = `Sales, ${channels.get(of)?.name ?? of}`;
  if (head === 'sales') return sales;
  return head === 'consignment' ? `${sales}, before commission` : (AMOUNT_WORDS[item] ?? item);
}

/** The name of a spending category; one of the studio's own is called as it is. */
export function categoryName(category: string): string {
  return (CATEGORY_WORDS as Readonly<Record<string, string>>)[category] ?? category;
}

/** What is added to a limit of a sheet that may be wrong; nothing for one that was verified. */
export function verifiedWords({ isUnverified }: { readonly isUnverified?: boolean }): string {
  return isUnverified ? ' (limit not verified)' : '';
}

/** A fraction of 1 as a percentage, with all its decimals. */
export function shareInWords(rate: Decimal): string {
  return `${rate.times(decimal(100)).toString()}%`;
}

/** A distance to a tenth. */
export function distanceInWords(distance: Decimal): string {
  return roundTo(distance, 1).toString();
}
