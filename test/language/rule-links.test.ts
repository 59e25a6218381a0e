import { expect, test } from 'vitest';
import { ruleAt, ruleLinks } from '../../server/language/rule-links.ts';
import { fixture, slice } from './fixture.ts';

const SOURCE = `practice "x"
  severity live-crown-ratio note
  limit strength-loss 30 %
tree 1
  accept reinspection-overdue
    until 2027-03-01
  accept no-such-rule
`;

test('exceptions and severities lead to the page of their rule', () => {
  const given = fixture(SOURCE);
  expect(ruleLinks(given.file).map(link => [link.rule, slice(given, link)])).toEqual([
    ['live-crown-ratio', 'live-crown-ratio'],
    ['reinspection-overdue', 'reinspection-overdue'],
  ]);
});

test('at an offset, on the name alone', () => {
  const at = (source: string) => {
    const { file, offset } = fixture(source);
    return ruleAt(file, offset)?.rule;
  };
  expect(at('tree 1\n  accept reinspection‸-overdue\n')).toBe('reinspection-overdue');
  expect(at('tree 1\n  acc‸ept reinspection-overdue\n')).toBeUndefined();
  expect(at('tree 1\n  accept no-such‸-rule\n')).toBeUndefined();
});
