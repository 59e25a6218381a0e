/**
 * A comparison for other programs: the published form of `compare --format json`, described by comparison.schema.json.
 * A change that could break a reader raises `version`.
 */

import { formatDate } from '../base/dates.ts';
import type { Interval } from '../base/interval.ts';
import type { Comparison, FigureChange } from '../compare/compare.ts';
import type { Finding } from '../rules/check.ts';
import { jsonText } from './visible.ts';

export const COMPARISON_VERSION = 1;

/** @param on day number for which both states were checked @param before and @param after name the two states */
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
  // A member that is undefined is left out of the text.
  before: before && intervalOf(before),
  after: after && intervalOf(after),
});

/** JSON has no infinity: null stands for an end that nobody knows. */
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
