/**
 * Entries of printed log rule tables; the formulas are in mechanics/timber.ts. Small-end diameters inside bark in whole
 * inches, lengths in feet, volumes in board feet: the units in which the rules are defined.
 */

import { type Citation, type Confidence, cite } from './citation.ts';

/** @public */
export interface LogRuleValue {
  readonly rule: 'Doyle' | 'Scribner' | 'Scribner Decimal C' | 'International 1/4-inch';
  /** in. */
  readonly diameter: number;
  /** ft. */
  readonly length: number;
  /** Board feet; tens of board feet for Scribner Decimal C. */
  readonly value: number;
  readonly citation: Citation;
  readonly confidence: Confidence;
}

const rows = (
  rule: LogRuleValue['rule'],
  confidence: Confidence,
  length: number,
  ...pairs: readonly (readonly [diameter: number, value: number])[]
): readonly LogRuleValue[] =>
  pairs.map(([diameter, value]) => ({
    rule,
    diameter,
    length,
    value,
    citation: cite('log-scaling-handbook'),
    confidence,
  }));

/**
 * Known entries of the printed tables. The Scribner table was drawn from diagrams and differs from its formula (30 in
 * by 16 ft: table 660, formula 647); only these entries are known, so they are not interpolated.
 *
 * @public
 */
export const logRuleValues: readonly LogRuleValue[] = [
  ...rows('Doyle', 'published', 16, [8, 16], [12, 64], [20, 256], [24, 400], [30, 676], [36, 1024]),
  ...rows('Doyle', 'published', 8, [10, 18]),
  ...rows('Scribner', 'from memory', 16, [12, 79], [16, 159], [20, 280], [24, 404]),
  ...rows('Scribner', 'published', 16, [30, 660]),
  ...rows('Scribner Decimal C', 'published', 8, [6, 0.5]),
  ...rows('Scribner Decimal C', 'from memory', 16, [12, 8], [16, 16], [20, 28], [24, 40]),
  ...rows('Scribner Decimal C', 'published', 16, [30, 66]),
  ...rows(
    'International 1/4-inch',
    'from memory',
    16,
    [8, 40],
    [10, 65],
    [12, 95],
    [16, 180],
    [20, 290],
    [24, 425],
    [30, 675],
    [36, 980],
  ),
  ...rows('International 1/4-inch', 'from memory', 8, [12, 45], [20, 135]),
];

/** The entry for exactly this diameter and length. @public */
export const logRuleValue = (
  rule: LogRuleValue['rule'],
  diameter: number,
  length: number,
): LogRuleValue | undefined =>
  logRuleValues.find(row => row.rule === rule && row.diameter === diameter && row.length === length);
