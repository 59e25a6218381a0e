/** `soundwood begin`: a new inventory with its site, its people and an example of a tree. */

import { mkdir, stat } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { parseBlock } from '../../grammar/blocks.ts';
import { formatDate } from '../../grammar/dates.ts';
import { tidy } from '../../grammar/tidy.ts';
import { shown } from './files.ts';
import { CannotRun, CLEAN, type Io } from './io.ts';
import { writeNewText } from './write-text.ts';

export interface BeginOptions {
  readonly name?: string;
  readonly region?: string;
  readonly units?: 'imperial' | 'metric';
  readonly person?: string;
}

interface Answers {
  readonly name: string;
  readonly region: string;
  readonly units: 'imperial' | 'metric';
  readonly person: string;
}

const FILES = ['site.wood', 'people.wood', 'trees.wood'] as const;

/** Countries that size trees in inches and feet. */
const IMPERIAL = /^(US|LR|MM)\b/;

export async function begin(folder: string | undefined, options: BeginOptions, io: Io): Promise<number> {
  const target = resolve(io.cwd, folder ?? '.');
  for (const file of FILES) {
    const there = await stat(join(target, file)).catch(() => undefined);
    if (there)
      throw new CannotRun(`${shown(io.cwd, join(target, file))} exists already, and nothing is overwritten.`);
  }
  const answers = await answer(options, io);
  const texts = {
    'site.wood': siteText(answers),
    'people.wood': peopleText(answers),
    'trees.wood': treesText(answers, io.today),
  };
  await mkdir(target, { recursive: true }).catch((error: Error) => {
    throw new CannotRun(`${shown(io.cwd, target)} can't be made: ${error.message}.`);
  });
  for (const file of FILES) {
    await writeNewText(join(target, file), tidy(texts[file]).text, io.cwd);
    io.out(`${shown(io.cwd, join(target, file))}\n`);
  }
  io.out(`Next: fill in trees.wood, then run soundwood check${folder === undefined ? '' : ` ${folder}`}\n`);
  return CLEAN;
}

/** From the options, else asked on a terminal. Throws CannotRun where neither gives an answer. */
async function answer(options: BeginOptions, io: Io): Promise<Answers> {
  const of = async (option: string, given: string | undefined, question: string, proposal: string) => {
    if (given !== undefined) return given;
    if (!io.interactive) throw new CannotRun(`--${option} is missing, and there is no terminal to ask on.`);
    return io.ask(question, proposal);
  };
  const name = oneLine(await of('name', options.name, 'What is the place called?', ''));
  const region = (
    await of('region', options.region, 'Which country and state or province (ISO 3166, as US-OR or GB)?', '')
  ).toUpperCase();
  const mistake = parseBlock(`site "x"\nregion ${region}`).lines[1]!.mistake;
  if (mistake) throw new CannotRun(`${mistake.message} ${mistake.remedy}`);
  const proposed = IMPERIAL.test(region) ? 'imperial' : 'metric';
  const units = await of(
    'units',
    options.units ?? (io.interactive ? undefined : proposed),
    'Units, imperial or metric?',
    proposed,
  );
  if (units !== 'imperial' && units !== 'metric')
    throw new CannotRun(`${units} is neither imperial nor metric.`);
  const person = oneLine(await of('person', options.person, 'Who inspects (full name)?', ''));
  if (name === '') throw new CannotRun('The place needs a name.');
  if (person === '') throw new CannotRun('The name of the person who inspects is needed.');
  return { name, region, units, person };
}

const oneLine = (text: string) => text.replace(/[\s\0-\x1F\x7F]+/g, ' ').trim();
const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;

/** The short name of a person: first letters, in capitals. */
function initials(person: string): string {
  const letters = person
    .split(/[\s.-]+/)
    .map(part => [...part].find(letter => /[\p{L}]/u.test(letter)) ?? '')
    .join('')
    .toUpperCase();
  return parseBlock(`person ${letters} "x"`).lines[0]!.mistake ? 'P1' : letters;
}

const siteText = ({ name, region }: Answers) => `site ${quoted(name)}
  region      ${region}
  # position  44.3127, -122.8714
  # client    "who asks for the inventory"
`;

const peopleText = ({ person }: Answers) => `person ${initials(person)} ${quoted(person)}
  # qualified consulting arborist
`;

/** The example: the same tree in either system of units, measured to whole numbers. */
const EXAMPLE = {
  imperial: {
    dbh: '16 in',
    girth: '50 in',
    height: '48 ft',
    between: '45..50 ft',
    base: '8 ft',
    spread: '36 ft',
  },
  metric: {
    dbh: '41 cm',
    girth: '129 cm',
    height: '15 m',
    between: '14..16 m',
    base: '2.5 m',
    spread: '11 m',
  },
} as const;

function treesText({ units, person }: Answers, today: number): string {
  const { dbh, girth, height, between, base, spread } = EXAMPLE[units];
  return `# An example: change it, and copy it for every tree. A # begins a comment.

tree 1 "Example oak"                # your own tag, then a name if it has one
  species     Quercus robur         # botanical name; the genus alone if that is all you know
  dbh         ${dbh.padEnd(22)}# diameter at breast height; girth ${girth} works, too
  height      ${height.padEnd(22)}# ~ before a number: estimated; or ${between}: between
  crown       from ${base}, ${spread} wide
  age         semi-mature
  vigor       good

  inspection ${formatDate(today)} from ground
    by        ${initials(person)}
    level     basic
`;
}
