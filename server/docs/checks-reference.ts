import { publishedChecks as mechanicsChecks } from '../../test/published/mechanics.ts';
import { publishedChecks as practiceChecks } from '../../test/published/practice.ts';

export interface CheckRow {
  readonly name: string;
  readonly source: string;
  readonly unit: string;
  readonly expected: number | string;
  readonly computed: number | string | undefined;
  /** Absolute; undefined if the value must agree exactly. */
  readonly tolerance: number | undefined;
}

/** Runs all checks. */
export const checkRows = (): readonly CheckRow[] => [
  ...mechanicsChecks.map(({ name, source, unit = '', expected, tolerance, compute }) => ({
    name,
    source,
    unit,
    expected,
    computed: compute(),
    tolerance,
  })),
  ...practiceChecks.map(({ name, source, unit = '', expected, tolerance, compute }) => ({
    name,
    source: source.short,
    unit,
    expected,
    computed: compute(),
    tolerance,
  })),
];

export function agrees({ expected, computed, tolerance }: CheckRow): boolean {
  return typeof expected === 'number' && typeof computed === 'number' && tolerance !== undefined
    ? Math.abs(computed - expected) <= tolerance
    : computed === expected;
}

/** Six significant digits: more than any source prints. */
const shown = (value: number | string | undefined): string =>
  typeof value === 'number' ? String(Number(value.toPrecision(6))) : (value ?? 'none');

/** The computed value, to one digit finer than the tolerance: further digits may differ between machines. */
function computedText({ computed, tolerance }: CheckRow): string {
  if (typeof computed !== 'number' || tolerance === undefined || tolerance === 0) return shown(computed);
  const digits = Math.min(MOST_DIGITS, Math.max(0, 1 - Math.floor(Math.log10(tolerance))));
  return String(Number(computed.toFixed(digits)));
}

const MOST_DIGITS = 12;

const cell = (text: string) => text.replaceAll('|', '\\|').replaceAll('\n', ' ');

function rowText(row: CheckRow): string {
  const unit = row.unit === '' ? '' : ` ${row.unit}`;
  const tolerance = row.tolerance === undefined ? 'exactly' : `± ${shown(row.tolerance)}${unit}`;
  const cells = [
    row.name,
    row.source,
    `${shown(row.expected)}${unit}`,
    `${computedText(row)}${unit}`,
    tolerance,
  ];
  return `| ${cells.map(cell).join(' | ')} |`;
}

export function checksPage(): string {
  const rows = checkRows();
  return `# Published checks

<!-- Generated from test/published by \`npm run generate\`; edit the checks there. -->

${rows.length} values that are published, or follow from a closed form, each beside the value that Soundwood computes. The
tests check every one of them. A source marked *from memory* has not been checked again.

| value | source | expected | computed | tolerance |
| --- | --- | --- | --- | --- |
${rows.map(rowText).join('\n')}
`;
}
