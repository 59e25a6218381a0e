/** Whatever stands in an inventory, and whatever its files are called, stays text in every form that is put out. */

import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { DuckDBInstance } from '@duckdb/node-api';
import { parse } from 'csv-parse/sync';
import ICAL from 'ical.js';
import { SaxesParser } from 'saxes';
import initSqlJs from 'sql.js';
import { describe, expect, test } from 'vitest';
import { splitBlocks } from '../../grammar/blocks.ts';
import { HEADS } from '../../grammar/fields.ts';
import type { FormNode } from '../../grammar/forms.ts';
import { readText } from '../../server/host/read-text.ts';
import { textOfCell } from '../../server/import/inert.ts';
import { readInRegion } from '../../server/show/in-region.ts';
import { sanitize } from '../../server/show/sanitize.ts';
import { NOT_CHECKED } from '../../server/show/summary.ts';
import { type Folder, folderWith } from '../cli/folder.ts';
import { repositoryWith } from '../team/repository.ts';
import { HIDDEN, HOSTILE_MARKS, HOSTILE_TEXTS, hostileFolder, inventoryOf } from './hostile.ts';

/** Commands whose text is for a terminal. */
const INERT: ReadonlySet<string> = new Set(['weigh', 'history', 'compare', 'tidy', 'explain']);

const hostile = () => folderWith(hostileFolder());

interface Found {
  readonly level: string;
  readonly grade: string;
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly rule: string;
  readonly message: string;
  readonly remedy: string;
  readonly accepted?: object;
}

let found: readonly Found[] | undefined;

/** What a check finds in them; the same for every test. */
async function findingsIn(folder: Folder): Promise<readonly Found[]> {
  if (!found) {
    const { out } = await folder.run('check', '--as', 'json');
    found = (JSON.parse(out) as { findings: readonly Found[] }).findings;
  }
  return found;
}

/** The order of the forms that hold a limited number of them. */
const byGravity = (findings: readonly Found[]): readonly Found[] => {
  const gravity = ({ accepted, grade, level }: Found) =>
    accepted ? 4 : grade === 'syntax' ? 0 : ['', 'error', 'warning', 'note'].indexOf(level);
  return findings.toSorted((a, b) => gravity(a) - gravity(b));
};

describe('the inventories', () => {
  const takesText = (node: FormNode): boolean => {
    switch (node.kind) {
      case 'value':
        return node.type === 'text' || node.type === 'path';
      case 'optional':
      case 'repeat':
        return takesText(node.node);
      case 'sequence':
      case 'anyOrder':
      case 'either':
        return node.nodes.some(takesText);
      default:
        return false;
    }
  };

  test('hold a hostile text in every place of the notation that takes one, and no mistake', () => {
    const places = [...HEADS.values()].flatMap(head =>
      [head, ...head.fields.values()]
        .filter(({ node }) => takesText(node))
        .map(({ word }) => `${head.word} ${word}`),
    );
    for (const text of HOSTILE_TEXTS) {
      const lines = splitBlocks(inventoryOf(text, '1')).flatMap(({ block }) =>
        block.sections.flatMap(({ head, fields }) =>
          [head, ...fields].map(index => ({
            line: block.lines[index]!,
            place: `${block.lines[head]!.word} ${block.lines[index]!.word}`,
          })),
        ),
      );
      expect(lines.flatMap(({ line }) => line.mistake ?? [])).toEqual([]);
      const filled = lines.filter(({ line }) =>
        line.values.some(value => value.type === 'text' && value.text === text),
      );
      expect(places.filter(place => !filled.some(one => one.place === place))).toEqual([]);
    }
  });
});

describe('for people', () => {
  /** What a terminal, a problem matcher or a build server would see more in than text. */
  function expectInert(text: string) {
    expect(text).not.toMatch(HIDDEN);
    expect(text).not.toMatch(/##\w*\[/);
    expect(text).not.toMatch(/^\s*::/m);
  }

  test('check: a line that names a place for each finding, and no other such line', async () => {
    const folder = await hostile();
    const { out, err } = await folder.run('check', '--format', 'lines');
    expectInert(out);
    expectInert(err);
    expect(err).toBe('');
    const findings = await findingsIn(folder);
    const named = out.split('\n').filter(line => /^\S.*:\d+:\d+: /.test(line));
    expect(named).toHaveLength(findings.length);
    for (const [i, { line, column, rule }] of findings.entries()) {
      expect(named[i]).toContain(`:${line}:${column}: `);
      expect(named[i]).toMatch(new RegExp(` \\[${rule}\\]$`));
    }
    // Everything else is indented, but for the last line.
    const others = out
      .split('\n')
      .filter(line => line !== '' && !line.startsWith(' ') && !named.includes(line));
    expect(others).toEqual([expect.stringMatching(/^\d+ trees in \d+ files: /), NOT_CHECKED]);
  });

  test('check, by tree: nothing hidden, and all findings', async () => {
    const folder = await hostile();
    const { out, err } = await folder.run('check', '--format', 'text');
    expectInert(out);
    expect(err).toBe('');
    const named = out.split('\n').filter(line => /^ *\d+:\d+ {2}(?:error|warning|note|accepted) /.test(line));
    expect(named).toHaveLength((await findingsIn(folder)).length);
  });

  test.each([
    [['weigh']],
    [['history']],
    [['compare', '.', '--since', '2000-01-01']],
    [['tidy', '--check']],
    [['explain', '--here', '0']],
    [['calendar']],
    [['report']],
    [['check', '--as', 'markdown']],
  ])('%j', async args => {
    const { out, err } = await (await hostile()).run(...args);
    expect(out.length).toBeGreaterThan(100);
    if (INERT.has(args[0]!)) expectInert(out);
    // The word joiners are ours.
    else expect(out.replaceAll('\r\n', '\n').replaceAll('\u2060', '')).not.toMatch(HIDDEN);
    expectInert(err);
  });

  test('gather: whatever a part result says, it stays on its line', async () => {
    const folder = await folderWith({
      'a.wood': `${inventoryOf('plain', '1')}tree 1\n  dbh 41\n`,
      'b.wood': new Uint8Array([0xff]),
    });
    await folder.run('check', '--part', '1/1', '--to', 'part.json');
    const part = await readFile(folder.file('part.json'), 'utf8');
    const TOLD = [
      'file',
      'message',
      'remedy',
      'caution',
      'tree',
      'subject',
      'because',
      'by',
      'site',
      'name',
      'species',
    ];
    let shown = 0;
    for (const mark of [
      ...HOSTILE_MARKS,
      '\nx.wood:1:1: error: forged [forged]',
      '::add-mask::x',
      '##[error]x',
    ]) {
      for (const names of [TOLD, [...TOLD, 'rule']]) {
        const changed = JSON.parse(part, (name, value) =>
          names.includes(name) && typeof value === 'string' ? mark : value,
        );
        await writeFile(folder.file('changed.json'), JSON.stringify(changed));
        for (const form of ['text', 'lines']) {
          const { code, out, err } = await folder.run('gather', 'changed.json', '--format', form);
          expect(code).toBe(2);
          expectInert(out);
          expectInert(err);
          expect(`${out}${err}`).not.toMatch(/^x\.wood:1:1/m);
          if (out !== '') shown++;
        }
      }
    }
    expect(shown).toBeGreaterThan(10);
  });

  test('what can not be read is named on one line of its own', async () => {
    const folder = await folderWith({ 'a\nb.wood:1:1: error: forged\u001B[2J.wood': new Uint8Array([0xff]) });
    const { code, err } = await folder.run('check');
    expect(code).toBe(2);
    expect(err).toMatch(/^soundwood: .*\n$/);
    expectInert(err);
    expect((await folder.run('tidy')).err).toMatch(/^soundwood: .*\n$/);
  });
});

describe('for programs', () => {
  test('the timeline of a tree is a picture that names no hidden mark', async () => {
    const folder = await hostile();
    const { out } = await folder.run('history', '--as', 'json');
    const { trees } = JSON.parse(out) as { trees: readonly { tag: string; file: string }[] };
    let drawn = 0;
    for (const { tag, file } of trees.slice(0, 10)) {
      const { code, out: svg } = await folder.run('history', tag, `./${file}`, '--as', 'svg');
      if (code !== 0) continue;
      const parser = new SaxesParser({ xmlns: true });
      parser.on('error', error => {
        throw error;
      });
      parser.write(svg).close();
      expect(svg).not.toMatch(HIDDEN);
      drawn++;
    }
    expect(drawn).toBeGreaterThan(0);
  });

  test('JSON: what is said is said, and nothing is hidden in the text', async () => {
    const folder = await hostile();
    const names = Object.keys(hostileFolder());
    for (const args of [
      ['check', '--as', 'json'],
      ['check', '--as', 'sarif'],
      ['check', '--part', '1/1'],
      ['weigh', '--as', 'json'],
      ['history', '--as', 'json'],
      ['export', '--as', 'geojson'],
      ['export', '--as', 'jsonl'],
    ]) {
      const { out } = await folder.run(...args);
      expect(out).not.toMatch(HIDDEN);
      expect(out).not.toMatch(/##\w*\[/);
      for (const text of args[2] === 'jsonl' ? out.trim().split('\n') : [out])
        expect(() => JSON.parse(text)).not.toThrow();
    }
    const findings = await findingsIn(folder);
    expect(new Set(findings.map(({ file }) => file))).toEqual(new Set(names));
  });

  test('SARIF: no message holds a link or a placeholder, no address leads elsewhere', async () => {
    const folder = await hostile();
    const findings = byGravity(await findingsIn(folder));
    interface Result {
      readonly message: { readonly text: string };
      readonly locations: readonly {
        readonly physicalLocation: { readonly artifactLocation: { readonly uri: string } };
      }[];
    }
    const sarif = JSON.parse((await folder.run('check', '--as', 'sarif')).out) as {
      runs: { results: readonly Result[] }[];
    };
    const { results } = sarif.runs[0]!;
    expect(results).toHaveLength(findings.length);
    for (const [i, { message, locations }] of results.entries()) {
      expect(message.text).not.toMatch(/(?<!\\)\[[^[\]]*(?<!\\)\]\(/);
      expect(message.text.replaceAll('{{', '').replaceAll('}}', '')).not.toMatch(/[{}]/);
      const { uri } = locations[0]!.physicalLocation.artifactLocation;
      expect(uri).toMatch(/^[\w.!~*'()%/-]+$/);
      expect(decodeURIComponent(uri)).toBe(findings[i]!.file);
      expect(new URL(uri, 'file:///inventory/').href.startsWith('file:///inventory/')).toBe(true);
    }
  });

  test('JUnit: a case for each finding, no element beyond those of the form', async () => {
    const folder = await hostile();
    const { out } = await folder.run('check', '--as', 'junit', '--reject', 'note');
    expect(out).not.toMatch(HIDDEN);
    const names = new Map<string, number>();
    const parser = new SaxesParser();
    parser.on('opentag', ({ name }) => void names.set(name, (names.get(name) ?? 0) + 1));
    parser.on('error', error => {
      throw error;
    });
    parser.write(out).close();
    const findings = await findingsIn(folder);
    expect([...names.keys()].sort()).toEqual(['failure', 'testcase', 'testsuite', 'testsuites']);
    expect(names.get('failure')).toBe(findings.length);
  });

  test('CSV: whatever parts the cells, none begins a formula, and what was said comes back', async () => {
    const folder = await hostile();
    const { out } = await folder.run('export', '--as', 'csv');
    const rows: readonly Readonly<Record<string, string>>[] = parse(out, { columns: true });
    const names = rows.map(({ name }) => name!).filter(name => name !== '');
    expect(names.map(textOfCell).sort()).toEqual([...HOSTILE_TEXTS].sort());
    for (const delimiter of [',', ';', '\t']) {
      const cells: readonly string[][] = parse(out, {
        delimiter,
        relax_quotes: true,
        relax_column_count: true,
      });
      for (const cell of cells.flat())
        if (!/^-?\d+(\.\d+)?$/.test(cell)) expect(cell).not.toMatch(/^[\s"]*[=+@\-\uFF1D\uFF0B\uFF20\uFF0D]/);
    }
    // Read line by line, as those do who do not know that a cell may have several.
    for (const line of out.split(/\r?\n/)) expect(line).not.toMatch(/^[\s"]*[=+@-]/);
  });

  test('Parquet, GeoPackage and GeoJSON: names as they are', async () => {
    const folder = await hostile();
    await folder.run('export', '--as', 'parquet', '--to', 'trees.parquet');
    const connection = await (await DuckDBInstance.create()).connect();
    const read = await connection.runAndReadAll(
      `select name from read_parquet('${folder.file('trees.parquet')}') where name is not null`,
    );
    expect(read.getRows().flat().sort()).toEqual([...HOSTILE_TEXTS].sort());
    connection.closeSync();
    await folder.run('export', '--as', 'geopackage', '--to', 'trees.gpkg');
    const { Database } = await initSqlJs();
    const file = new Database(await readFile(folder.file('trees.gpkg')));
    const [named] = file.exec('SELECT name FROM trees WHERE name IS NOT NULL');
    expect(named!.values.flat().sort()).toEqual([...HOSTILE_TEXTS].sort());
    file.close();
    const { features } = JSON.parse((await folder.run('export', '--as', 'geojson')).out) as {
      features: { properties: { name: string | null } }[];
    };
    expect(features.flatMap(({ properties }) => properties.name ?? []).sort()).toEqual(
      [...HOSTILE_TEXTS].sort(),
    );
  });

  test('iCalendar: no property, component or line that the form does not have', async () => {
    const folder = await hostile();
    const { out } = await folder.run('calendar');
    const lines = out.split('\r\n');
    expect(out.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    for (const line of lines) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
    const properties = new Set(
      out
        .replace(/\r\n /g, '')
        .split('\r\n')
        .map(line => /^[A-Z-]+/.exec(line)?.[0]),
    );
    expect([...properties].filter(name => name !== undefined).sort()).toEqual(
      [
        ...['BEGIN', 'CALSCALE', 'CATEGORIES', 'DESCRIPTION', 'DTEND', 'DTSTAMP', 'DTSTART', 'END', 'GEO'],
        ...['LOCATION', 'PRODID', 'SUMMARY', 'TRANSP', 'UID', 'VERSION'],
      ].sort(),
    );
    const calendar = new ICAL.Component(ICAL.parse(out));
    expect(new Set(calendar.getAllSubcomponents().map(({ name }) => name))).toEqual(new Set(['vevent']));
    const places = calendar
      .getAllSubcomponents()
      .flatMap(event => event.getFirstPropertyValue('location') ?? []);
    expect(new Set(places)).toEqual(new Set(HOSTILE_TEXTS));
  });
});

describe('in reviews', () => {
  /** Of Markdown: what an escape or an entity stands for is no mark any more. */
  const withoutEscapes = (markdown: string): string =>
    markdown.replace(/\\[!-/:-@[-`{-~]/g, '').replace(/&(?:amp|lt|gt);/g, '');
  const unescaped = (markdown: string): string =>
    markdown
      .replace(/\u2060/g, '')
      .replace(/\\([!-/:-@[-`{-~])/g, '$1')
      .replaceAll('&lt;', '<')
      .replaceAll('&gt;', '>')
      .replaceAll('&amp;', '&');
  /** The marks of our own that a line may have: headings, bold, the borders of cells. */
  const MARKS = /[`_[\]<>!~$@\\]|:\/\/|\bwww\.|(?<!\*)\*(?!\*)|[#@!$~%^&]\p{L}|GH-\d/u;

  test('check: a row for each finding, in which it reads as it is', async () => {
    const folder = await hostile();
    let rowsOfAll = 0;
    // File by file: a comment holds no more than some hundred findings.
    for (const file of Object.keys(hostileFolder()).filter(name => /^\d+\//.test(name))) {
      const { out } = await folder.run('check', file, '--as', 'markdown');
      const { findings: found } = JSON.parse((await folder.run('check', file, '--as', 'json')).out) as {
        findings: readonly Found[];
      };
      const findings = byGravity(found).filter(({ accepted }) => accepted === undefined);
      const rows = out.split('\n').filter(line => /^\| (?:\*\*error\*\*|warning|note) \|/.test(line));
      expect(rows).toHaveLength(findings.length);
      rowsOfAll += rows.length;
      for (const [i, row] of rows.entries()) {
        const cells = row.split(/(?<=(?:^|[^\\])(?:\\\\)*)\|/);
        expect(cells).toHaveLength(8);
        const read = readInRegion(findings[i]!.message, { code: 'US-OR' });
        expect(unescaped(cells[3]!.trim())).toBe(sanitize(read.replace(/\s+/g, ' ')).trim());
      }
      for (const line of out.split('\n')) expect(withoutEscapes(line)).not.toMatch(MARKS);
    }
    expect(rowsOfAll).toBeGreaterThan(1000);
  });

  test('compare: headings and items of our own only', async () => {
    const repository = await repositoryWith({ 'site.wood': 'site "Fernhollow Court"\n  region US-OR\n' });
    for (const [i, text] of HOSTILE_TEXTS.entries()) {
      await mkdir(repository.file(`${i}`));
      await writeFile(repository.file(`${i}/a.wood`), inventoryOf(text, `T${i}`));
    }
    const { out } = await repository.run('compare', 'HEAD', '--as', 'markdown');
    expect(out.length).toBeGreaterThan(10_000);
    for (const line of out.split('\n')) {
      expect(withoutEscapes(line)).not.toMatch(MARKS);
      expect(line).toMatch(
        /^(?:|### .*|\*\*.*\*\*|- (?:\*\*new:\*\* |(?!\[|[-+*#>]|\d+[.)] )).*|\d+ trees changed, .*)$/,
      );
    }
    const { out: text } = await repository.run('compare', 'HEAD');
    expect(text).not.toMatch(HIDDEN);
    expect(text).not.toMatch(/##\w*\[|^\s*::/m);
  });
});

test('headings and cells of a table stay on the line that tells of them', async () => {
  const forged = 'height (ft)\nx.wood:1:1: error: forged [forged]';
  const rows = ['1,33,"no size\ny.wood:1:1: error: forged"', '2,40,'];
  const table = (girth: string) => [`tag,${girth},"${forged}"`, ...rows].join('\n');
  const folder = await folderWith({
    'trees.csv': table('girth (cm)'),
    'open.csv': table(`"girth of ${forged}"`),
  });
  const open = await folder.run('import', 'open.csv');
  expect(open.code).toBe(2);
  expect(open.out + open.err).toContain('forged');
  expect(open.out + open.err).not.toMatch(/^[xy]\.wood:/m);
  for (const args of [
    ['import', 'trees.csv'],
    [
      'begin',
      'new',
      '--from',
      'trees.csv',
      '--name',
      'Fernhollow Court',
      '--region',
      'US-OR',
      '--person',
      'RV',
    ],
  ]) {
    const { code, out, err } = await folder.run(...args);
    expect(code).toBe(0);
    expect(out + err).toContain('forged');
    expect(out + err).not.toMatch(/^[xy]\.wood:/m);
  }
});

test('a hostile text in a table stays text in the inventory that is made of it', async () => {
  const rows = HOSTILE_TEXTS.map((text, i) => [String(i), text, `10`, text]);
  const cell = (text: string) => `"${text.replaceAll('"', '""')}"`;
  const table = [['tag', 'name', 'dbh (in)', 'constructor'], ...rows]
    .map(row => row.map(cell).join(','))
    .join('\n');
  const folder = await folderWith({ 'trees.csv': table });
  const { code, err } = await folder.run('import', 'trees.csv', '--to', 'trees.wood');
  expect(code).toBe(0);
  expect(err).not.toMatch(HIDDEN);
  const read = readText(await readFile(folder.file('trees.wood')));
  const lines = 'text' in read ? splitBlocks(read.text).flatMap(({ block }) => block.lines) : [];
  expect(lines.flatMap(({ mistake }) => mistake ?? [])).toEqual([]);
  expect(lines.filter(({ word }) => word === 'tree')).toHaveLength(HOSTILE_TEXTS.length);
  expect([...new Set(lines.map(({ word }) => word))].filter(word => word !== undefined).sort()).toEqual([
    'dbh',
    'note',
    'tree',
  ]);
});
