import type { PublishedCheck } from '../../test/published/published-check.ts';
import { publishedChecks } from '../../test/published/published-checks.ts';

type CheckValue = ReturnType<PublishedCheck['compute']>;

/** Six significant digits: more than any source prints. */
const shown = (value: CheckValue): string =>
  typeof value === 'number' ? String(Number(value.toPrecision(6))) : (value ?? 'none');

/** To one digit finer than the tolerance: the next may differ from machine to machine. */
function computedText(computed: CheckValue, tolerance: number | undefined): string {
  if (typeof computed !== 'number' || tolerance === undefined || tolerance === 0) return shown(computed);
  const digits = Math.min(MOST_DIGITS, Math.max(0, 1 - Math.floor(Math.log10(tolerance))));
  return String(Number(computed.toFixed(digits)));
}

const MOST_DIGITS = 12;

const cell = (text: string) => text.replaceAll('|', '\\|').replaceAll('\n', ' ');

function row({ name, source, expected, tolerance, compute, ...check }: PublishedCheck): string {
  const unit = check.unit ? ` ${check.unit}` : '';
  const cells = [
    name,
    source,
    `${shown(expected)}${unit}`,
    `${computedText(compute(), tolerance)}${unit}`,
    tolerance === undefined ? 'exactly' : `± ${shown(tolerance)}${unit}`,
  ];
  return `| ${cells.map(cell).join(' | ')} |`;
}

export function checksPage(): string {
  return `# Published checks

<!-- Generated from test/published by \`npm run generate\`; edit the checks there. -->

${publishedChecks.length} values that are published, or follow from a closed form, each beside the value that Soundwood computes. The
tests check every one of them. A source marked *from memory* has not been checked again.

| value | source | expected | computed | tolerance |
| --- | --- | --- | --- | --- |
${publishedChecks.map(row).join('\n')}
`;
}
