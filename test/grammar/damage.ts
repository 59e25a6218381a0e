/** Ways to spoil one line of an inventory, and what the rest of it still says. */

import { splitBlocks } from '../../grammar/blocks.ts';
import type { Mistake } from '../../grammar/syntax.ts';
import { splitLines } from '../../grammar/text.ts';

export interface Damage {
  readonly way: string;
  readonly line: string;
}

const WORD = /[^\s,]+/g;

function swap(word: string): string {
  return word.length < 2 ? `${word}q` : word[1]! + word[0]! + word.slice(2);
}

/** Every spoilt version of a line; each counts as one case. */
export function damagesOf(line: string): Damage[] {
  const damages: Damage[] = [];
  const add = (way: string, spoilt: string) => {
    if (spoilt !== line) damages.push({ way, line: spoilt });
  };
  const indent = /^\s*/.exec(line)![0];
  const text = line.slice(indent.length).replace(/\s+#.*$/, '');
  if (text === '' || text.startsWith('#')) return [];
  const words = [...text.matchAll(WORD)];
  for (const word of words) {
    // A word lost inside a text is no mistake that a reader could notice.
    if (text.slice(0, word.index).split('"').length % 2 === 0 && !word[0].includes('"')) continue;
    add(
      'drop a word',
      indent + text.slice(0, word.index) + text.slice(word.index + word[0].length).trimStart(),
    );
  }
  const first = words[0]![0];
  add('swap the first letters of the first word', indent + swap(first) + text.slice(first.length));
  add('lose a letter of the first word', indent + first.slice(0, -1) + text.slice(first.length));
  add('double a letter of the first word', indent + first[0] + text);
  add('capitalise the first word', indent + first[0]!.toUpperCase() + text.slice(1));
  add(
    'drop the unit',
    indent +
      text.replace(/(\d) (in|ft|mm|cm|m|%|deg|mph|kV|lb|kg|months|years)\b/, '$1').replace(/(\d) %/, '$1'),
  );
  add('wrong unit', indent + text.replace(/(\d) (in|ft|mm|cm|m|%|deg|mph|kV|lb|kg)(?![\w])/, '$1 km'));
  add('unit of another kind', indent + text.replace(/(\d) (in|ft|mm|cm|m)(?![\w])/, '$1 kg'));
  for (const mark of [';', '!', '(', '=', '\u0007', '🌲'])
    add(`stray mark ${mark}`, `${indent + text}${mark}`);
  add('stray mark in front', `${indent}; ${text}`);
  add('stray marks', `${indent + text} (;`);
  add('curled quotes', indent + text.replace(/"([^"]*)"/g, '“$1”'));
  add('one curled quote', indent + text.replace('"', '“'));
  add('decimal comma', indent + text.replace(/(\d)\.(\d)/, '$1,$2'));
  add('dash for a range', indent + text.replace('..', ' – '));
  add('slashes in a date', indent + text.replace(/(\d{4})-(\d{2})-(\d{2})/, '$2/$3/$1'));
  add('mark of feet', indent + text.replace(/(\d) ft/, "$1'"));
  add('mark of inches', indent + text.replace(/(\d) in/, '$1"'));
  add('stray mark inside', indent + text.replace(' ', ' ; '));
  add('unclosed quote', indent + text.replace(/"([^"]*)"(?!.*")/, '"$1'));
  add('opened quote', `${indent + text} "`);
  add('bad date', indent + text.replace(/\d{4}-\d{2}-\d{2}/, '2026-02-30'));
  add('short date', indent + text.replace(/\d{4}-(\d{2}-\d{2})/, '26-$1'));
  add('turned range', indent + text.replace(/(\S+)\.\.(\S+)/, '$2..$1'));
  add('half range', indent + text.replace(/\.\.\S+/, '..'));
  add('word too many', `${indent + text} surplus`);
  add('comma at the end', `${indent + text},`);
  return damages;
}

export interface Reading {
  readonly mistakes: readonly { readonly line: number; readonly mistake: Mistake }[];
  /** What every line says: below which head it stands, its word and its values. */
  readonly facts: readonly string[];
}

/** Without their own word these can't be told apart: what is lost is on the spoilt line, not on the others. */
const SAME_BUT_FOR_THEIR_WORD = new Map([
  ['stem', 'part'],
  ['limb', 'part'],
  ['nest check', 'check'],
  ['bat check', 'check'],
]);

export function readAll(text: string): Reading {
  const mistakes: { line: number; mistake: Mistake }[] = [];
  const facts: string[] = [];
  for (const { block, firstLine } of splitBlocks(text)) {
    const owner = new Map<number, string>();
    for (const section of block.sections) {
      const kind = SAME_BUT_FOR_THEIR_WORD.get(section.word) ?? section.word;
      for (const line of [section.head, ...section.fields]) owner.set(line, kind);
    }
    block.lines.forEach((line, i) => {
      if (line.mistake) mistakes.push({ line: firstLine + i, mistake: line.mistake });
      // A line end that closes a block leaves an empty last line which is the first line of the next block.
      facts[firstLine + i] = JSON.stringify([owner.get(i), line.word, line.values, line.mistake?.code]);
    });
  }
  return { mistakes, facts };
}

export interface Outcome {
  readonly cases: number;
  readonly silent: number;
  readonly failures: readonly string[];
}

/**
 * Spoils every line in turn; a failure is a second mistake, a mistake elsewhere, or a changed fact elsewhere.
 * Blocks are read by themselves, so a spoilt line is tried with its block and the blocks above and below.
 */
export function damageEveryLine(text: string): Outcome {
  const blocks = splitBlocks(text).map(({ block }) => block.text);
  const failures: string[] = [];
  let cases = 0;
  let silent = 0;
  blocks.forEach((block, i) => {
    const above = blocks[i - 1] ?? '';
    const whole = above + block + (blocks[i + 1] ?? '');
    const before = readAll(whole);
    const { texts, starts } = splitLines(block);
    for (const [index, line] of texts.entries()) {
      const start = above.length + starts[index]!;
      const number = splitLines(whole.slice(0, start)).texts.length - 1;
      for (const damage of damagesOf(line)) {
        cases++;
        const after = readAll(whole.slice(0, start) + damage.line + whole.slice(start + line.length));
        const fail = (why: string) =>
          failures.push(`${line.trim()} (${damage.way}): ${damage.line.trim()}\n    ${why}`);
        if (after.mistakes.length === 0) silent++;
        if (after.mistakes.length > 1) fail(after.mistakes.map(m => m.mistake.message).join('\n    '));
        if (after.mistakes.some(m => m.line !== number)) fail('the mistake is reported on another line');
        const changed = before.facts.findIndex((fact, at) => at !== number && fact !== after.facts[at]);
        if (changed >= 0)
          fail(`line ${changed + 1} changed: ${before.facts[changed]} → ${after.facts[changed]}`);
      }
    }
  });
  return { cases, silent, failures };
}
