/** Options that several commands have, and how their values are read. */

import { type Command, InvalidArgumentError, Option } from 'commander';
import { parseDate } from '../base/dates.ts';
import { MOST_PARTS } from '../show/part.ts';
import { FINDINGS_FORMS, type WantedForm } from './checking/forms.ts';
import type { Share } from './checking/part.ts';

/** Names of 0.9.0 that are still accepted, by the option that has replaced each. */
const EARLIER_NAMES = {
  format: 'as',
  failOn: 'reject',
  output: 'to',
  date: 'on',
  shard: 'part',
} as const;

/** Options that `gather` has, for the whole. */
const NOT_FOR_A_SHARD = ['format', 'failOn', 'since', EARLIER_NAMES.format, EARLIER_NAMES.failOn];

/** Adds options; one that has replaced another is accepted under its earlier name as well, which no help lists. */
export function addOptions(command: Command, ...options: readonly Option[]): void {
  const replaced: string[] = [];
  for (const option of options) {
    command.addOption(option);
    const now = option.attributeName();
    if (!hasEarlierName(now)) continue;
    const earlier = new Option(option.flags.replace(/^.*--[a-z-]+/, `--${EARLIER_NAMES[now]}`))
      .hideHelp()
      .conflicts([now, ...(now === 'shard' ? NOT_FOR_A_SHARD : [])]);
    if (option.argChoices) earlier.choices(option.argChoices);
    else if (option.parseArg) earlier.argParser(option.parseArg);
    command.addOption(earlier);
    replaced.push(earlier.long!);
  }
  if (replaced.length > 0)
    command.addHelpText('after', `\nEarlier names, still accepted: ${replaced.join(', ')}.`);
}

const hasEarlierName = (name: string): name is keyof typeof EARLIER_NAMES => name in EARLIER_NAMES;

/** Copies the values given under the earlier names. */
export function shareValues(command: Command): void {
  for (const [now, earlier] of Object.entries(EARLIER_NAMES)) {
    const value = command.getOptionValue(earlier);
    if (value !== undefined) command.setOptionValue(now, value);
  }
}

function day(text: string): number {
  const read = parseDate(text);
  if (read === undefined) throw new InvalidArgumentError('Expected a date, e.g. 2026-03-14.');
  return read;
}

export function count(text: string): number {
  if (!/^[1-9]\d{0,3}$/.test(text)) throw new InvalidArgumentError('Expected a whole number from 1 to 9999.');
  return Number(text);
}

/** Of TCP. */
export function portNumber(text: string): number {
  const port = /^\d{1,5}$/.test(text) ? Number(text) : 0;
  if (port < 1 || port > 65_535) throw new InvalidArgumentError('Expected a port from 1 to 65535.');
  return port;
}

function share(text: string): Share {
  const [, part, of] = /^([1-9]\d*)\/([1-9]\d*)$/.exec(text)?.map(Number) ?? [];
  if (part === undefined || of === undefined || part > of || of > MOST_PARTS)
    throw new InvalidArgumentError(`Expected k/n, e.g. 3/8 (n at most ${MOST_PARTS}).`);
  return { part, of };
}

export const date = (what = 'check as of this date instead of today') =>
  new Option('--date <date>', what).argParser(day);

export const PERIOD_REVERSED =
  'the period ends before it begins: --since is later than --date, or than today.';

export const sinceDay = () =>
  new Option('--since <date>', 'show what was done since this date, what changed and what is due').argParser(
    day,
  );

export const failOn = (what = 'exit with 1 if there is a finding of this severity or above') =>
  new Option('--fail-on <level>', what).choices(['error', 'warning', 'note', 'never']).default('error');

export const format = (...formats: readonly string[]) =>
  new Option('--format <format>', 'output format').choices(formats);

const TEXT: readonly WantedForm[] = [{ form: 'text' }];

export const findingsFormat = () =>
  new Option(
    '--format <form>',
    `output format (${FINDINGS_FORMS.join(', ')}); FORM:FILE writes it to a file, and may be given several times`,
  )
    .argParser((value: string, before: readonly WantedForm[] | undefined) => {
      const [, form, to] = /^([^:]*)(?::(.+))?$/s.exec(value) ?? [];
      const known = FINDINGS_FORMS.find(one => one === form);
      if (known === undefined)
        throw new InvalidArgumentError(`Allowed choices are ${FINDINGS_FORMS.join(', ')}.`);
      const wanted: WantedForm = to === undefined ? { form: known } : { form: known, to };
      return before === undefined || before === TEXT ? [wanted] : [...before, wanted];
    })
    .default(TEXT, 'text');

export const output = (what: string) => new Option('-o, --output <file>', what);

export const shard = () =>
  new Option('--shard <k/n>', 'check only part k of n and write a part result for soundwood gather')
    .argParser(share)
    .conflicts(NOT_FOR_A_SHARD);
