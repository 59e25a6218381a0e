/** The quote for the client: a row for each job, sums by site, and a page to accept it. Nothing where nothing is stated. */

import {
  type Choice,
  type Currency,
  type Quote,
  type QuotedJob,
  type QuoteSum,
  quoteOf,
} from '../assess/quote.ts';
import type { Quantity } from '../base/quantity.ts';
import { counted, listed } from '../base/words.ts';
import type { RegionPack } from '../practice/region-pack.ts';
import { localeIn, longDate } from '../show/long-date.ts';
import { quantityText } from '../show/words.ts';
import type { ReportData } from './data.ts';
import { html, type Markup, type MarkupContent } from './html.ts';
import { groupBySite, isUnsettled, type SiteGroup, signatureLine, table } from './parts.ts';
import { permitDoubts, plainInvestigation, plainWork } from './plain-words.ts';
import { treeTitle } from './words.ts';

interface SiteQuote {
  readonly group: SiteGroup;
  readonly quote: Quote;
}

export function quotePart(data: ReportData): Markup | false {
  const quotes = groupBySite(data.trees).flatMap((group): readonly SiteQuote[] => {
    const quote = quoteOf(group.trees.map(({ tree }) => tree));
    return quote ? [{ group, quote }] : [];
  });
  return (
    quotes.length > 0 &&
    html`<section class="quote" aria-labelledby="quote-title">
      <h3 id="quote-title">Quote</h3>
      ${quotes.map(quote => siteQuote(quote, data))}
      ${quotes.length > 1 && grandTotal(quotes)}
      ${quotes.some(({ quote }) => quote.prices.length > 0) && acceptance(quotes, data.on)}
    </section>`
  );
}

const workOf = ({ tree, fact }: QuotedJob): string =>
  'alternatives' in fact ? plainWork(fact, tree) : plainInvestigation(fact);

/** The work in plain words, with what to know before it is accepted. */
function choiceOf(job: QuotedJob, choice: Choice, { trees }: SiteGroup): MarkupContent {
  const { tree, fact } = job;
  const entry = trees.find(one => one.tree === tree);
  const isOpen = entry && 'alternatives' in fact && isUnsettled(entry, fact);
  const words = choice.length > 1 ? `${workOf(job)} (one of ${choice.length} alternatives)` : workOf(job);
  if (entry && 'alternatives' in fact && !isOpen && permitDoubts(fact, entry).length > 0)
    return html`<span>${words}. <strong>Its permit is not certain: see the tree.</strong></span>`;
  return isOpen
    ? html`<span>${words}. <strong class="error">Not settled: see the tree.</strong></span>`
    : words;
}

const regionOf = ({ trees: [first] }: SiteGroup): RegionPack => first!.settings.region;

function money(amount: number, currency: Currency, region: RegionPack): string {
  return new Intl.NumberFormat(localeIn(region), { style: 'currency', currency }).format(amount);
}

/** Both ends of a sum: `$850.00 to $1,200.00`. */
function between(
  { low, high, isAbout }: Pick<QuoteSum, 'low' | 'high' | 'isAbout'>,
  show: (amount: number) => string,
): string {
  const about = isAbout ? 'about ' : '';
  if (high === Number.POSITIVE_INFINITY) return `${about}${show(low)} or more`;
  return low === high ? `${about}${show(high)}` : `${about}${show(low)} to ${show(high)}`;
}

const without = ({ missing }: QuoteSum): string =>
  missing.length > 0 ? `, without ${counted(missing.length, 'job')}` : '';

/** An amount as stated: `6`, `5 to 7`, `about 6`, `up to 7`. */
function stated({ form, low, high }: Quantity, show: (amount: number) => string): string {
  if (form === 'below') return `up to ${show(high)}`;
  return between({ low, high, isAbout: form === 'about' }, show);
}

function priceOf({ fact: { price }, isWork }: QuotedJob, region: RegionPack): string {
  if (!price || price.amount.value.form === 'unseen') return isWork ? 'not priced' : '–';
  return stated(price.amount.value, amount => money(amount, price.currency, region));
}

const hoursOf = ({ fact: { hours } }: QuotedJob): string =>
  hours && hours.value.form !== 'unseen' ? stated(hours.value, String) : '–';

/** Cents and the like, as a sum of money is rounded. */
function rounded(amount: number, currency: Currency): number {
  const { maximumFractionDigits: digits = 2 } = new Intl.NumberFormat('en', {
    style: 'currency',
    currency,
  }).resolvedOptions();
  return Math.round(amount * 10 ** digits) / 10 ** digits;
}

/** With the tax of the site on top. */
function taxed(sum: Quote['prices'][number], { site }: SiteGroup) {
  const rate = site?.quote?.tax?.value;
  const share = rate && rate.form === 'exact' ? rate.high : undefined;
  const tax = (amount: number) => (share === undefined ? 0 : rounded(amount * share, sum.currency));
  const taxes = { low: tax(sum.low), high: tax(sum.high), isAbout: sum.isAbout };
  return {
    taxes: share === undefined ? undefined : taxes,
    total: { low: sum.low + taxes.low, high: sum.high + taxes.high, isAbout: sum.isAbout },
  };
}

function siteQuote({ group, quote }: SiteQuote, { crew: crewNamed, on }: ReportData): Markup {
  const region = regionOf(group);
  const { choices, prices, hours, hoursByCrew } = quote;
  const { number, until, tax } = group.site?.quote ?? {};
  const hasPrices = prices.length > 0;
  // A column without figures is left out.
  const row = (
    tree: MarkupContent,
    work: MarkupContent,
    time: string,
    price: MarkupContent,
  ): readonly MarkupContent[] => [tree, work, ...(hours ? [time] : []), ...(hasPrices ? [price] : [])];
  const jobs = choices.flatMap(choice =>
    choice.map(job =>
      row(treeTitle(job.tree), choiceOf(job, choice, group), hoursOf(job), priceOf(job, region)),
    ),
  );
  const sums = prices.flatMap(sum => {
    const show = (amount: number) => money(amount, sum.currency, region);
    const { taxes, total } = taxed(sum, group);
    return [
      row('Subtotal', '', '', `${between(sum, show)}${without(sum)}`),
      ...(taxes
        ? [
            row(`Tax, ${quantityText(tax)}`, '', '', between(taxes, show)),
            row(
              html`<strong>Total</strong>`,
              '',
              '',
              html`<strong>${between(total, show)}${without(sum)}</strong>`,
            ),
          ]
        : []),
    ];
  });
  const spent = (what: string, sum: QuoteSum) =>
    row(
      what,
      '',
      sum.high === 0 && sum.missing.length > 0 ? 'not stated' : `${between(sum, String)}${without(sum)}`,
      '',
    );
  const time = [
    ...(hoursByCrew.length > 1 ? hoursByCrew : []).map(({ crew, ...sum }) =>
      spent(
        crew === undefined ? 'Hours without a crew' : `Hours of ${crewNamed(crew)?.name.value ?? crew}`,
        sum,
      ),
    ),
    ...(hours ? [spent('Hours in all', hours)] : []),
  ];
  return html`<div>
    <h4>${group.name}${number !== undefined && `: quote ${number}`}</h4>
    ${until !== undefined && html`<p>${until < on ? html`<strong>Lapsed: could be accepted until ${longDate(until, region)}.</strong>` : `Can be accepted until ${longDate(until, region)}.`}</p>`}
    ${table(`Quote, ${group.name}`, row('Tree', 'Work', 'Hours', 'Price') as readonly string[], [...jobs, ...time, ...sums])}
    ${prices.map(sum => ends(sum, group))}
    ${hasPrices && tax?.value.form !== 'exact' && html`<p>Prices are before tax.</p>`}
    ${prices.length > 1 && html`<p>Prices in different currencies are not added together.</p>`}
  </div>`;
}

/** Which choice the least and the most are for. */
function ends(sum: Quote['prices'][number], group: SiteGroup): Markup | false {
  if (sum.lowest.length === 0) return false;
  if (sum.isOpen)
    return html`<p>Alternatives are not added together: one of each is done. Not all of them have a price in ${sum.currency}, so the total of each choice is not known.</p>`;
  const { total } = taxed(sum, group);
  const show = (amount: number) => money(amount, sum.currency, regionOf(group));
  const chosen = (jobs: readonly QuotedJob[]) =>
    listed(jobs.map(job => `${workOf(job).toLowerCase()} at ${treeTitle(job.tree).replace(/^T/, 't')}`));
  return html`<p>Alternatives are not added together: one of each is done. Lowest total ${show(total.low)}: ${chosen(sum.lowest)}. Highest total ${total.high === Number.POSITIVE_INFINITY ? 'not known' : show(total.high)}: ${chosen(sum.highest)}.</p>`;
}

/** Of all sites, by currency. */
function grandTotal(quotes: readonly SiteQuote[]): Markup {
  const totals = new Map<Currency, { low: number; high: number; isAbout: boolean; missing: number }>();
  for (const { group, quote } of quotes)
    for (const sum of quote.prices) {
      const { total } = taxed(sum, group);
      const so = totals.get(sum.currency) ?? { low: 0, high: 0, isAbout: false, missing: 0 };
      totals.set(sum.currency, {
        low: so.low + total.low,
        high: so.high + total.high,
        isAbout: so.isAbout || total.isAbout,
        missing: so.missing + sum.missing.length,
      });
    }
  const region = regionOf(quotes[0]!.group);
  return html`<p><strong>All sites: ${[...totals].map(([currency, total]) => `${between(total, amount => money(amount, currency, region))}${total.missing > 0 ? `, without ${counted(total.missing, 'job')}` : ''}`).join('; ')}</strong></p>`;
}

/** Whether there is a price, or nothing to do, that can still be accepted and that the check does not hold wrong. */
function isAcceptable({ tree, fact, isWork }: QuotedJob, { trees, site }: SiteGroup, on: number): boolean {
  const entry = trees.find(one => one.tree === tree);
  const isOpen = entry && 'alternatives' in fact && isUnsettled(entry, fact);
  const until = site?.quote?.until;
  if (until !== undefined && until < on) return false;
  if (isOpen) return false;
  return fact.price ? fact.price.amount.value.form !== 'unseen' : !isWork;
}

/** Yes or no to each job with a price, and a line to sign. */
function acceptance(quotes: readonly SiteQuote[], on: number): Markup {
  let box = 0;
  const boxes = (what: string) =>
    html`<span>${['Yes', 'No'].map(answer => {
      const id = `accept-${++box}`;
      return html`<span class="answer"><input type="checkbox" id=${id} /><label for=${id}>${answer}<span class="hidden">: ${what}</span></label></span>`;
    })}</span>`;
  return html`<section class="accept"><h3>Acceptance</h3>
    ${quotes.map(
      ({ group, quote }) => html`<div>
        <h4>${group.name}${group.site?.quote && `: quote ${group.site.quote.number}`}</h4>
        ${table(
          `Acceptance, ${group.name}`,
          ['Tree', 'Work', 'Price', 'To be done'],
          quote.choices.flatMap(choice =>
            choice.map(job => [
              treeTitle(job.tree),
              choiceOf(job, choice, group),
              priceOf(job, regionOf(group)),
              isAcceptable(job, group, on) ? boxes(`${workOf(job)}, ${treeTitle(job.tree)}`) : 'not yet',
            ]),
          ),
        )}
      </div>`,
    )}
    <div class="signed">${signatureLine('Accepted for the client', 'Signature', 'Date')}</div>
  </section>`;
}
