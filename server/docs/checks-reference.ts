import { publishedChecks as mechanicsChecks } from '../../test/published/mechanics.ts';
import { publishedChecks as practiceChecks } from '../../test/published/practice.ts';

export interface CheckRow {
  readonly name: string;
  readonly source: string;
  readonly unit: string;
  readonly expected: number | string;
  readonly computed: number | string | undefined;
  /** Absolute; none where the value has to agree exactly. */
  readonly tolerance: number | undefined;
}

/** Every check, run. */
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

/** Six digits that count: more than any source prints. */
const shown = (value: number | string | undefined): string =>
  typeof value === 'number' ? String(Number(value.toPrecision(6))) : (value ?? 'none');

/** What was computed, to one digit finer than the tolerance: the next may differ from machine to machine. */
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

<!-- Printed from the checks of server/mechanics and server/practice by \`npm run generate\`; edit them there. -->

${rows.length} values that were published, or follow from a closed form, each beside what Soundwood computes. The tests hold
every one of them; a source marked *from memory* in the tables was not read again.

| value | source | expected | computed | agrees within |
| --- | --- | --- | --- | --- |
${rows.map(rowText).join('\n')}
`;
}
