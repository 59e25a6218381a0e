/**
 * A comparison as JSON, the output of `compare --format json`; schema in comparison.schema.json. A breaking change
 * increases `version`.
 */

import { formatDate } from '../base/dates.ts';
import type { Interval } from '../base/interval.ts';
import type { Comparison, FigureChange } from '../compare/compare.ts';
import type { Finding } from '../rules/check.ts';
import { jsonText } from './sanitize.ts';

const COMPARISON_VERSION = 1;

/** @param on day number of both checks @param before and @param after names of the two states */
export function showComparisonJson(
  { trees, others, came, went }: Comparison,
  on: number,
  before: string,
  after: string,
): string {
  const beside = (findings: readonly Finding[]) =>
    findings.filter(({ tree }) => tree === undefined).map(findingOf);
  const comparison = {
    version: COMPARISON_VERSION,
    on: formatDate(on),
    before,
    after,
    trees: trees.map(tree => ({
      ...tree,
      figures: tree.figures.map(figureOf),
      came: tree.came.map(findingOf),
      went: tree.went.map(findingOf),
    })),
    others,
    came: beside(came),
    went: beside(went),
  };
  return `${jsonText(comparison, 2)}\n`;
}

const figureOf = ({ what, at, before, after }: FigureChange) => ({
  what,
  at,
  // JSON.stringify omits undefined members.
  before: before && intervalOf(before),
  after: after && intervalOf(after),
});

/** JSON has no infinity: null is an unknown upper end. */
const intervalOf = ({ low, high }: Interval) => ({ low, high: Number.isFinite(high) ? high : null });

const findingOf = (finding: Finding) => ({
  rule: finding.rule,
  level: finding.level,
  grade: finding.grade,
  file: finding.file,
  line: finding.line,
  tree: finding.tree,
  subject: finding.subject,
  message: finding.message,
  remedy: finding.remedy,
  accepted: finding.accepted && { ...finding.accepted, until: formatDate(finding.accepted.until) },
});
