/** `soundwood explain`: explains rules, limits, mistakes and words of the notation, and what applies in a place. */

import { HEADS } from '../../grammar/fields.ts';
import { nearest } from '../../grammar/nearest.ts';
import { UserError } from '../base/user-error.ts';
import { findLimit, type LimitEntry, limitNames, limits } from '../practice/limits.ts';
import { photoSentences } from '../rules/example-photos.ts';
import { RULES, ruleNamed } from '../rules/registry.ts';
import type { Rule } from '../rules/rule.ts';
import { notationWords, wordText } from './explain-word.ts';
import { EXIT_CLEAN, type Io } from './io.ts';
import { MISTAKES } from './mistakes.ts';
import { amount, columns, sourceText, wrap } from './prose.ts';

export interface ExplainOptions {
  readonly here?: string;
  readonly regions?: boolean;
}

/** @param words the name, of two words for heads such as `nest check` */
export async function explain(words: readonly string[], options: ExplainOptions, io: Io): Promise<number> {
  const name = words.length > 0 ? words.join(' ') : undefined;
  if (name !== undefined) io.out(pageOf(name, io));
  if (options.here !== undefined) {
    const { placeText } = await import('./explain-here.ts');
    io.out(`${name === undefined ? '' : '\n'}${await placeText(options.here, name, io)}`);
  } else if (options.regions) {
    const { regionsText } = await import('./explain-regions.ts');
    io.out(`${name === undefined ? '' : '\n'}${regionsText(io)}`);
  } else if (name === undefined) {
    io.out(listText(io));
  }
  return EXIT_CLEAN;
}

const isMistake = (name: string): name is keyof typeof MISTAKES => Object.hasOwn(MISTAKES, name);

/** Throws UserError for an unknown name, and suggests the nearest one. */
function pageOf(name: string, io: Io): string {
  const rule = ruleNamed(name);
  const limit = findLimit(name);
  const word = wordText(name, io);
  // A rule, a limit and a word of the notation may have the same name: all are shown.
  const pages = [
    ...(rule ? [ruleText(rule, io)] : []),
    ...(limit ? [limitText(limit, io)] : []),
    ...(word === undefined ? [] : [word]),
    ...(isMistake(name)
      ? [`${io.paint('bold', name)} (notation error)\n\n${wrap(MISTAKES[name], 2)}\n`]
      : []),
  ];
  if (pages.length > 0) return pages.join('\n');
  const names = [
    ...RULES.map(known => known.name),
    ...limitNames,
    ...Object.keys(MISTAKES),
    ...notationWords,
  ];
  const near = nearest(name, names);
  const holding = [...new Set(names.filter(known => known.split(/[- ]/).includes(name.toLowerCase())))];
  const hint =
    holding.length > 0
      ? `; names that contain it: ${holding.join(', ')}`
      : near
        ? `; did you mean ${near}?`
        : '';
  throw new UserError(
    `no rule, limit or word of the notation is called ${name}${hint}. soundwood explain lists them all.`,
  );
}

function ruleText(rule: Rule, io: Io): string {
  const part = (title: string, text: string) => `${io.paint('bold', title)}\n${text}\n`;
  return [
    `${io.paint('bold', rule.name)} (rule, ${rule.group})\n${wrap(rule.summary, 2)}\n`,
    `${rule.explanation
      .trim()
      .split(/\n\s*\n/)
      .map(paragraph => wrap(paragraph, 2))
      .join('\n\n')}\n`,
    part('Limitations', wrap(rule.limitations, 2)),
    ...(rule.sources.length > 0
      ? [part('Sources', rule.sources.map(source => wrap(sourceText(source), 2, 4)).join('\n'))]
      : []),
    part(
      'Exceptions',
      wrap(
        rule.acceptable
          ? `A finding can be waived: accept ${rule.name}, with until, by and because.`
          : 'No exceptions are possible.',
        2,
      ),
    ),
    ...(rule.caution ? [part('Caution', wrap(rule.caution, 2))] : []),
    ...rule.examples.map(example =>
      part(
        `Example: ${example.title}${example.on ? ` (on ${example.on})` : ''}`,
        [...photoSentences(example).map(sentence => wrap(sentence, 2, 4)), exampleText(example.text)].join(
          '\n',
        ),
      ),
    ),
  ].join('\n');
}

/** Turns the marks of expected findings into comments. */
const exampleText = (text: string) =>
  text
    .replace(/\n+$/, '')
    .split('\n')
    .map(line => `    ${line.replace('#!', '# <-')}`.trimEnd())
    .join('\n');

function limitText(limit: LimitEntry, io: Io): string {
  return [
    `${io.paint('bold', limit.name)} (limit)\n${wrap(`${limit.summary}.`, 2)}\n`,
    `  ${limit.direction} ${amount(limit.value, limit.unit)} (${limit.confidence}); based on ${limit.rests}${limit.rests === 'practice' ? '' : ': a practice block can only make it stricter'}\n`,
    ...(limit.note ? [`${wrap(limit.note, 2)}\n`] : []),
    `${io.paint('bold', 'Source')}\n${wrap(sourceText(limit.citation), 2, 4)}\n`,
    `${io.paint('bold', 'To change it')}\n  practice "..."\n    limit ${limit.name} ${amount(limit.value, limit.unit)}\n    because "..."\n`,
  ].join('\n');
}

function listText(io: Io): string {
  const groups = [...new Set(RULES.map(({ group }) => group))];
  const rules = groups.map(group => {
    const own = RULES.filter(rule => rule.group === group);
    return `${io.paint('bold', group)}\n${columns(own.map(({ name, summary }) => [name, summary]))}`;
  });
  const values = limits.map(({ name, value, unit, direction, summary }) => [
    name,
    `${direction} ${amount(value, unit)}`,
    summary,
  ]);
  const heads = [...HEADS.values()].map(({ word, summary }) => [word, summary]);
  const mistakes = Object.keys(MISTAKES).map(name => [name]);
  return [
    ...rules,
    `${io.paint('bold', 'limits')}\n${columns(values)}`,
    `${io.paint('bold', 'heads of the notation')}\n${columns(heads)}`,
    `${io.paint('bold', 'notation errors')}\n${columns(mistakes)}`,
  ].join('\n');
}
