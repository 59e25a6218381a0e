import { describe, expect, it } from 'vitest';
import { currentRisks, ratingGiven, ratingToActOn, riskName } from '../../server/assess/risks.ts';
import { treeIn } from './inventory.ts';

const treeOf = (lines: string) => treeIn(`tree 1\n${lines}\n`);

describe('risks', () => {
  it('are those last seen, by the worse of what is stated and what the inputs give', () => {
    const { tree } = treeOf(`inspection 2025-01-10 from ground
risk "Path"
rating extreme
inspection 2026-01-10 from ground
risk "Path"
failure probable
impact high
consequences severe
rating moderate
risk "Gate"
rating low`);
    expect(currentRisks(tree).map(risk => [risk.target.value, ratingToActOn(risk)])).toEqual([
      ['Path', 'high'],
      ['Gate', 'low'],
    ]);
  });

  const rated = (...lines: readonly string[]) =>
    treeOf(`defect A crack\nrisk "Path" from A\n${lines.join('\n')}`).tree.risks[0]!;
  const INPUTS = ['failure imminent', 'impact high', 'consequences severe'];

  it('are rated by both matrices of the TRAQ: imminent and high is very likely, and severe then extreme', () => {
    // ANSI A300 Part 9 and ISA BMP Tree Risk Assessment 2017, both matrices, from memory.
    expect(ratingGiven(rated(...INPUTS))).toBe('extreme');
    expect(ratingGiven(rated('failure possible', 'impact high', 'consequences severe'))).toBe('moderate');
    expect(ratingGiven(rated('failure improbable', 'impact high', 'consequences severe'))).toBe('low');
  });

  it('have no rating where an input is missing, and the worse where a person rated otherwise', () => {
    for (const left of INPUTS)
      expect(ratingGiven(rated(...INPUTS.filter(one => one !== left)))).toBeUndefined();
    expect(ratingToActOn(rated(...INPUTS, 'rating low'))).toBe('extreme');
    expect(
      ratingToActOn(rated('failure improbable', 'impact high', 'consequences severe', 'rating high')),
    ).toBe('high');
    expect(ratingToActOn(rated())).toBeUndefined();
  });

  it('are named by target and cause', () => {
    expect(riskName(rated())).toBe('the risk to "Path" from A');
  });
});
