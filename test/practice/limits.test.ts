import { describe, expect, it } from 'vitest';
import { aircraftRules } from '../../server/practice/aircraft.ts';
import { type Citation, cite, sources } from '../../server/practice/citation.ts';
import {
  AGE_CLASSES,
  doseLimits,
  findLimit,
  limit,
  limitNames,
  limits,
} from '../../server/practice/limits.ts';
import { logRuleValues } from '../../server/practice/logs.ts';
import { PRIORITIES, priorityDeadline, riskSource } from '../../server/practice/risk.ts';
import { speciesTable } from '../../server/practice/species.ts';
import { woodTable } from '../../server/practice/wood.ts';

/** Every citation that a value anywhere in the tables carries. */
function citationsIn(value: unknown, found: Citation[] = []): readonly Citation[] {
  if (Array.isArray(value)) for (const item of value) citationsIn(item, found);
  else if (typeof value === 'object' && value !== null) {
    for (const [key, item] of Object.entries(value)) {
      if (key === 'citation') found.push(item as Citation);
      else citationsIn(item, found);
    }
  }
  return found;
}

describe('sources', () => {
  it('have one entry each, whole', () => {
    expect(new Set(sources.map(({ id }) => id)).size).toBe(sources.length);
    expect(new Set(sources.map(({ full }) => full)).size).toBe(sources.length);
    for (const source of sources) {
      expect(source.short, source.id).toMatch(/\S/);
      expect(source.full.length, source.id).toBeGreaterThan(source.short.length - 1);
      expect(['published', 'from memory', 'common practice']).toContain(source.confidence);
      if (source.url !== undefined) expect(() => new URL(source.url!)).not.toThrow();
      expect(cite(source.id)).toBe(source);
    }
  });

  it('stand behind every citation of every table', () => {
    const cited = citationsIn([limits, speciesTable, woodTable, aircraftRules, logRuleValues, riskSource]);
    expect(cited.length).toBeGreaterThan(400);
    for (const citation of cited) expect(cite(citation.id)).toEqual(citation);
  });

  it('bear only what is as sure as they are', () => {
    for (const { name, citation, confidence } of limits) {
      if (citation.id === 'practice') expect(confidence, name).toBe('common practice');
    }
  });
});

describe('limits', () => {
  it('have plain names, a source and a value that its dimension allows', () => {
    const unitsOf = {
      share: ['%'],
      length: ['mm', 'm', 'in', 'ft'],
      angle: ['deg'],
      duration: ['days', 'weeks', 'months', 'years'],
      mass: ['kg', 'lb'],
      voltage: ['kV'],
      speed: ['mph', 'm/s', 'km/h'],
      ratio: [''],
      count: [''],
    } as const;
    for (const each of limits) {
      expect(each.name).toMatch(/^[a-z]+(-[a-z]+)*$/);
      expect(cite(each.citation.id)).toBe(each.citation);
      expect(unitsOf[each.dimension], each.name).toContain(each.unit);
      // Some orders ask for a permit for every cut: nothing is let pass unless the order of the place is named.
      if (each.name !== 'permit-dose') expect(each.value, each.name).toBeGreaterThan(0);
      if (each.dimension === 'share') expect(each.value, each.name).toBeLessThanOrEqual(1);
      if (each.dimension === 'count') expect(Number.isInteger(each.value), each.name).toBe(true);
    }
    expect(new Set(limitNames).size).toBe(limits.length);
  });

  it('are found by name, and only by theirs', () => {
    expect(findLimit('strength-loss')).toBe(limit('strength-loss'));
    expect(findLimit('strength loss')).toBeUndefined();
    expect(findLimit('constructor')).toBeUndefined();
  });

  it('hold the values of their sources', () => {
    expect(limit('strength-loss')).toMatchObject({ value: 0.33, direction: 'at most' });
    expect(limit('strength-loss').citation.short).toBe('Wagener 1963');
    expect(limit('wall-ratio')).toMatchObject({ value: 0.3, direction: 'at least' });
    expect(limit('lateral-ratio').value).toBeCloseTo(1 / 3, 12);
    expect(limit('drone-height').value).toBeCloseTo(121.92, 9);
    expect(limit('nest-stand-off').value).toBeCloseTo(15.24, 9);
    expect(limit('cumulative-years').value).toBeCloseTo(1095.7275, 6);
  });

  it('grow no looser with age, nor with poor vigour', () => {
    const strictest = (...args: Parameters<typeof doseLimits>) =>
      Math.min(...doseLimits(...args).map(name => limit(name).value));
    const byAge = AGE_CLASSES.map(age => strictest(age, 'good'));
    expect(byAge).toEqual([...byAge].sort((one, other) => other - one));
    for (const age of [undefined, ...AGE_CLASSES]) {
      expect(strictest(age, 'poor')).toBeLessThanOrEqual(strictest(age, 'fair'));
      expect(strictest(age, 'poor')).toBe(0.1);
    }
    expect(strictest(undefined, undefined)).toBe(0.25);
    expect(doseLimits('over-mature', 'poor')).toEqual(['dose-over-mature', 'dose-stressed']);
  });

  it('give a more urgent priority no more time', () => {
    const days = PRIORITIES.map(priority => limit(priorityDeadline[priority]).value);
    expect(days).toEqual([...days].sort((one, other) => one - other));
    expect(new Set(days).size).toBe(days.length);
  });
});
