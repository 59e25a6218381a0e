/** Rules in the order of the documentation, and by name. */

import { GROUPS, type Rule } from './rule.ts';
import * as rules from './rules.ts';

/** By group, then by name. */
export const RULES: readonly Rule[] = Object.values<Rule>(rules).sort(
  (a, b) => GROUPS.indexOf(a.group) - GROUPS.indexOf(b.group) || (a.name < b.name ? -1 : 1),
);

export const ruleNames: readonly string[] = RULES.map(({ name }) => name);

const byName: ReadonlyMap<string, Rule> = new Map(RULES.map(rule => [rule.name, rule]));

export const ruleNamed = (name: string): Rule | undefined => byName.get(name);
