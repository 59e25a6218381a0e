/** The forms in which findings leave the program, each read back by somebody else's reader of that form. */

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import addFormats from 'ajv-formats';
import fc from 'fast-check';
import { type SaxesAttributePlain, SaxesParser } from 'saxes';
import { expect, test } from 'vitest';
import type { Finding } from '../../server/rules/check.ts';
import type { StartForm } from '../../server/show/check-result.ts';
import { escapeReview } from '../../server/show/escape-markdown.ts';
import { COMMENT_BYTES, SARIF_RESULTS } from '../../server/show/host-limits.ts';
import { escapeXml } from '../../server/show/junit.ts';
import { showMarkdown } from '../../server/show/markdown.ts';
import { showSarif } from '../../server/show/sarif.ts';
import { NOTHING_FOUND } from '../../server/show/summary.ts';
import { folderWith, ON } from '../cli/folder.ts';

const require = createRequire(import.meta.url);
const { default: Ajv } = require('ajv-draft-04') as typeof import('ajv-draft-04');

/** The schema that OASIS published with the standard. */
const schema = JSON.parse(
  readFileSync(
    join(
      dirname(require.resolve('@microsoft/jest-sarif/package.json')),
      'lib/schemas/sarif-2.1.0-rtm.5.json',
    ),
    'utf8',
  ),
);
const validate = addFormats
  .default(new Ajv({ strict: false, allErrors: true, unicodeRegExp: false }))
  .compile(schema);

const PEOPLE = 'person RV "Ruth Varga"\n  qualified consulting arborist\n';
const SITE = 'site "Fernhollow Court"\n  region US-OR\n';
const TREE =
  'tree 1\n  species Quercus garryana\n  dbh 16 in\n  height 48 ft\n\n  inspection 2026-05-02 from ground\n    by RV\n    level basic\n';
const TARGET = '\n  target "Play | <b>lawn</b>"\n    occupied frequent\n    kind people\n';
const ACCEPT =
  '\n  accept target-without-distance\n    until 2026-12-31\n    by RV\n    because "measured | <next> visit & *soon*"\n';
const FILES = {
  'site.wood': SITE,
  'people.wood': PEOPLE,
  'old grove/open.wood': TREE + TARGET,
  'old grove/kept.wood': TREE.replace('tree 1', 'tree 2') + TARGET + ACCEPT,
  'old grove/sound.wood': TREE.replace('tree 1', 'tree 3'),
  'bad.wood': 'tree 4\n  dbh 41\n  height 12\n  spread 3\n',
};

const sample = fileURLToPath(new URL('../../samples/fernhollow', import.meta.url));

interface Xml {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  text: string;
  readonly children: Xml[];
}

/** Reads XML strictly; throws at anything that the standard forbids. */
function readXml(text: string): Xml {
  const root: Xml = { name: '', attributes: {}, text: '', children: [] };
  const open = [root];
  const parser = new SaxesParser();
  parser.on('opentag', ({ name, attributes }) => {
    const element = {
      name,
      attributes: attributes as SaxesAttributePlain & Record<string, string>,
      text: '',
      children: [],
    };
    open.at(-1)!.children.push(element as unknown as Xml);
    open.push(element as unknown as Xml);
  });
  parser.on('text', part => {
    open.at(-1)!.text += part;
  });
  parser.on('closetag', () => {
    open.pop();
  });
  parser.on('error', error => {
    throw error;
  });
  parser.write(text).close();
  return root.children[0]!;
}

test('SARIF follows the published schema, for the sample inventory and for what could not be read', async () => {
  const folder = await folderWith({ ...FILES, 'c.wood': new Uint8Array([0xff, 0x0a]) });
  for (const path of ['.', sample]) {
    const { out } = await folder.run('check', path, '--as', 'sarif', '--on', ON);
    const log = JSON.parse(out);
    expect(validate(log), JSON.stringify(validate.errors)).toBe(true);
    expect(log.runs[0].results.length).toBeGreaterThan(4);
    for (const { ruleId, ruleIndex } of log.runs[0].results)
      expect(log.runs[0].tool.driver.rules[ruleIndex].id).toBe(ruleId);
  }
});

test('SARIF: an accepted finding is suppressed with who, until when and why; the others say that they are not', async () => {
  const folder = await folderWith(FILES);
  const { out } = await folder.run('check', '--as', 'sarif', '--on', ON);
  const results = JSON.parse(out).runs[0].results.filter(
    (result: { ruleId: string }) => result.ruleId === 'target-without-distance',
  );
  // The graver first: what is accepted comes last.
  expect(results.map(({ suppressions }: { suppressions: unknown[] }) => suppressions)).toEqual([
    [],
    [
      {
        kind: 'inSource',
        status: 'accepted',
        justification: 'Accepted by RV until 2026-12-31: measured | <next> visit & *soon*',
        properties: { by: 'RV', until: '2026-12-31', because: 'measured | <next> visit & *soon*' },
      },
    ],
  ]);
  expect(results[1].locations[0].physicalLocation.artifactLocation.uri).toBe('old%20grove/kept.wood');
});

test('fingerprints stay while lines move and files are renamed, and no two are the same', async () => {
  const prints = async (files: Readonly<Record<string, string>>) => {
    const folder = await folderWith(files);
    const { out } = await folder.run('check', '--as', 'sarif', '--on', ON);
    return JSON.parse(out).runs[0].results.map(
      (result: { partialFingerprints: Record<string, string> }) =>
        Object.values(result.partialFingerprints)[0],
    ) as string[];
  };
  const before = await prints(FILES);
  expect(new Set(before).size).toBe(before.length);
  const { 'bad.wood': bad, ...others } = FILES;
  const moved = Object.fromEntries(
    Object.entries({ ...others, 'worse.wood': bad }).map(([name, text]) => [name, `# a remark\n\n${text}`]),
  );
  expect((await prints(moved)).toSorted()).toEqual(before.toSorted());
});

/**
 * What the schema junit-10.xsd of the Jenkins xUnit plugin says of the
 * elements that we write: attributes that must and that may be there, elements within, and whether it has text.
 */
const JUNIT: Readonly<
  Record<
    string,
    {
      readonly must: readonly string[];
      readonly may: readonly string[];
      readonly within: readonly string[];
      readonly hasText: boolean;
    }
  >
> = {
  testsuites: {
    must: [],
    may: ['name', 'time', 'tests', 'failures', 'errors'],
    within: ['testsuite'],
    hasText: false,
  },
  testsuite: {
    must: ['name', 'tests', 'failures', 'errors'],
    may: ['group', 'time', 'skipped', 'timestamp', 'hostname', 'id', 'package', 'file', 'log', 'url'],
    within: ['testsuite', 'properties', 'testcase', 'system-out', 'system-err'],
    hasText: false,
  },
  testcase: {
    must: ['name'],
    may: ['time', 'classname', 'group'],
    within: ['skipped', 'error', 'failure', 'system-out', 'system-err'],
    hasText: false,
  },
  failure: { must: [], may: ['type', 'message'], within: [], hasText: true },
  error: { must: [], may: ['type', 'message'], within: [], hasText: true },
  skipped: { must: [], may: ['type', 'message'], within: [], hasText: true },
  'system-out': { must: [], may: [], within: [], hasText: true },
};

test('JUnit has the elements and attributes of the published schema, and no others', async () => {
  const folder = await folderWith({
    ...FILES,
    'c.wood': new Uint8Array([0xff, 0x0a]),
    'empty.wood': '',
  });
  const seen = new Set<string>();
  const follow = ({ name, attributes, text, children }: Xml) => {
    seen.add(name);
    const { must, may, within, hasText } = JUNIT[name]!;
    const given = Object.keys(attributes);
    expect(given, name).toEqual(expect.arrayContaining([...must]));
    expect([...must, ...may], name).toEqual(expect.arrayContaining(given));
    if (!hasText) expect(text.trim(), name).toBe('');
    for (const child of children) {
      expect(within).toContain(child.name);
      follow(child);
    }
  };
  for (const level of ['note', 'never']) {
    const { out } = await folder.run('check', '--format', 'junit', '--on', ON, '--fail-on', level);
    const root = readXml(out);
    expect(root.name).toBe('testsuites');
    follow(root);
  }
  // Each of them is written.
  expect([...seen].sort()).toEqual(Object.keys(JUNIT).sort());
});

test('JUnit: what is rejected fails, what is accepted is skipped, a tree without findings passes', async () => {
  const folder = await folderWith({ ...FILES, 'c.wood': new Uint8Array([0xff, 0x0a]) });
  const cases = async (reject: string) => {
    const { out } = await folder.run('check', '--as', 'junit', '--on', ON, '--reject', reject);
    const suites = readXml(out).children;
    for (const { attributes, children } of suites) {
      const count = (name: string) =>
        children.filter(one => one.children.some(child => child.name === name)).length;
      expect(attributes).toMatchObject({
        tests: String(children.length),
        failures: String(count('failure')),
        errors: String(count('error')),
        skipped: String(count('skipped')),
      });
    }
    return suites.flatMap(suite => suite.children);
  };
  const [strict, mild] = [await cases('note'), await cases('error')];
  const outcomes = (all: readonly Xml[], file: string) =>
    all
      .filter(({ attributes }) => attributes.classname === file)
      .map(one => [
        one.attributes.name,
        one.children.find(({ name }) => name !== 'system-out')?.name ?? 'passed',
      ]);
  expect(outcomes(strict, 'old grove/sound.wood')).toEqual([['tree 3', 'passed']]);
  expect(outcomes(strict, 'old grove/open.wood')).toContainEqual([
    'tree 1 target-without-distance Play | <b>lawn</b>',
    'failure',
  ]);
  expect(outcomes(mild, 'old grove/open.wood')).toContainEqual([
    'tree 1 target-without-distance Play | <b>lawn</b>',
    'passed',
  ]);
  expect(outcomes(strict, 'old grove/kept.wood')).toContainEqual([
    'tree 2 target-without-distance Play | <b>lawn</b>',
    'skipped',
  ]);
  expect(outcomes(mild, 'bad.wood')).toContainEqual(['tree 4 missing-unit', 'failure']);
  expect(outcomes(mild, 'c.wood')).toEqual([['reading', 'error']]);
  const skipped = strict.flatMap(({ children }) => children).find(({ name }) => name === 'skipped');
  expect(skipped!.attributes.message).toBe(
    'Accepted by RV until 2026-12-31: measured | <next> visit & *soon*',
  );
});

test('XML: any text comes back as it was, but for characters that XML cannot hold', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), text => {
      const xml = readXml(
        `<?xml version="1.0" encoding="UTF-8"?>\n<a b="${escapeXml(text)}">${escapeXml(text)}</a>`,
      );
      expect(xml.attributes.b).toBe(xml.text);
      expect([...xml.text].length).toBe([...text].length);
      const written = [...xml.text];
      [...text].forEach((letter, i) => {
        if (written[i] !== '\uFFFD') expect(written[i]).toBe(letter);
        else expect(letter).toMatch(/[^\t\n\r\x20-\x7E\x85\xA0-\uFDCF\uFDF0-\uFFFC]/u);
      });
    }),
    { numRuns: 500 },
  );
});

test('Markdown: every row of a table has the cells of its head, accepted findings say who, until when and why', async () => {
  const folder = await folderWith(FILES);
  const { code, out } = await folder.run('check', '--as', 'markdown', '--on', ON);
  expect(code).toBe(1);
  const [openPart, acceptedPart] = out.split('#### Accepted\n');
  const cells = (line: string) => line.split(/(?<!\\)\|/).length;
  for (const part of [openPart!, acceptedPart!]) {
    const rows = part.split('\n').filter(line => line.startsWith('|'));
    expect(rows.length).toBeGreaterThan(2);
    for (const row of rows) expect(cells(row), row).toBe(cells(rows[0]!));
  }
  expect(acceptedPart).toContain(
    '| RV | December 31, 2026 | measured \\| &lt;next&gt; visit &amp; \\*soon\\* |',
  );
  expect(out).not.toContain('<b>');
});

test('Markdown: each caution once, below the findings', async () => {
  const folder = await folderWith({});
  const { out } = await folder.run(
    'check',
    `${process.cwd()}/samples/aldermere`,
    '--as',
    'markdown',
    '--on',
    ON,
  );
  const cautions = out.split('\n').filter(line => line.startsWith('- **Caution** for '));
  expect(cautions.length).toBeGreaterThan(0);
  const said = cautions.map(line => line.replace(/^.*?\): /, ''));
  expect(new Set(said).size).toBe(said.length);
  for (const caution of said) expect(out.split(caution).length).toBe(2);
});

test('Markdown: no text of the user is mark-up, a cell border, a line end or a control character', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), text => {
      const shown = escapeReview(text);
      expect(shown).not.toMatch(/[\0-\x1F\x7F-\x9F\u202A-\u202E\u2066-\u2069<>]/);
      expect(shown.replace(/\\[\\`*_[\]#!|~$@:.+=)-]/g, '')).not.toMatch(/[\\`*_[\]#!|~$@]/);
    }),
    { numRuns: 500 },
  );
  expect(escapeReview('@someone #12')).toBe('\\@\u2060someone \\#\u206012');
});

test('--to takes every form, and the summary stays on the terminal', async () => {
  const folder = await folderWith(FILES);
  for (const form of ['sarif', 'junit', 'markdown']) {
    const direct = await folder.run('check', '--as', form, '--on', ON);
    const { code, out } = await folder.run('check', '--as', form, '--on', ON, '--to', `findings.${form}`);
    expect(code).toBe(1);
    expect(out).toMatch(
      /^4 trees in 6 files: .*; 1 accepted\.\nLocal orders, and the permits that they require, are checked only as far as they are recorded\.\n$/,
    );
    expect(readFileSync(folder.file(`findings.${form}`), 'utf8')).toBe(direct.out);
  }
});

test('several forms in one run are those of a run each; two that go to one place are refused', async () => {
  const folder = await folderWith(FILES);
  const { code, out } = await folder.run(
    ...['check', '--on', ON, '--as', 'sarif:findings.sarif', '--as', 'markdown:review.md', '--as', 'json'],
  );
  expect(code).toBe(1);
  expect(out).toBe((await folder.run('check', '--on', ON, '--as', 'json')).out);
  for (const [form, file] of [
    ['sarif', 'findings.sarif'],
    ['markdown', 'review.md'],
  ] as const)
    expect(readFileSync(folder.file(file), 'utf8')).toBe(
      (await folder.run('check', '--on', ON, '--as', form)).out,
    );
  for (const [args, told] of [
    [['--as', 'sarif', '--as', 'json'], '--format sarif:FILE --format json:FILE'],
    [['--as', 'sarif:a', '--as', 'json:a'], 'two forms write to a'],
    [['--as', 'sarif:a', '--to', 'b'], 'leave out --output'],
    [['--as', 'csv:a'], 'Allowed choices are text, lines, json, sarif, junit, markdown'],
  ] as const) {
    const refused = await folder.run('check', ...args);
    expect(refused.code).toBe(2);
    expect(refused.err).toContain(told);
  }
});

test('within a repository SARIF names files from its root, wherever the check runs', async () => {
  const folder = await folderWith(FILES);
  const uris = async (cwd: string, ...args: string[]) => {
    const log = JSON.parse((await folder.runIn(cwd, 'check', ...args, '--as', 'sarif', '--on', ON)).out);
    expect(validate(log), JSON.stringify(validate.errors)).toBe(true);
    expect(Object.keys(log.runs[0].originalUriBaseIds)).toEqual(['%SRCROOT%']);
    return log.runs[0].results.map(
      ({ locations }: { locations: { physicalLocation: { artifactLocation: object } }[] }) =>
        locations[0]!.physicalLocation.artifactLocation,
    );
  };
  const top = await uris('.', 'old grove');
  expect(top).toContainEqual({ uri: 'old%20grove/kept.wood', uriBaseId: '%SRCROOT%' });
  expect(await uris('old grove')).toEqual(top);
});

test('the fixes of SARIF, made in the text, are the quick fixes', async () => {
  const folder = await folderWith({ 'a.wood': '# Lawn\n\ntree 1\n  dbh 41\n  heigth 12 ft\n' });
  const { out } = await folder.run('check', '--as', 'sarif', '--on', ON);
  interface Replacement {
    readonly deletedRegion: Readonly<Record<'startLine' | 'startColumn' | 'endLine' | 'endColumn', number>>;
    readonly insertedContent: { readonly text: string };
  }
  interface Result {
    readonly ruleId: string;
    readonly fixes?: readonly {
      readonly description: { readonly text: string };
      readonly artifactChanges: readonly { readonly replacements: readonly Replacement[] }[];
    }[];
  }
  const results = JSON.parse(out).runs[0].results as readonly Result[];
  const lines = readFileSync(folder.file('a.wood'), 'utf8').split('\n');
  const fixed = results.flatMap(({ fixes = [] }) =>
    fixes.map(({ description, artifactChanges }) => {
      const [{ deletedRegion: at, insertedContent }] = artifactChanges[0]!.replacements as [Replacement];
      expect(at.endLine).toBe(at.startLine);
      const line = lines[at.startLine - 1]!;
      return [
        description.text,
        line.slice(0, at.startColumn - 1) + insertedContent.text + line.slice(at.endColumn - 1),
      ];
    }),
  );
  expect(fixed).toContainEqual(['Write 41 in', '  dbh 41 in']);
  expect(fixed).toContainEqual(['Write height', '  height 12 ft']);
});

test('more findings than a host takes: the gravest, and what is left out is said', async () => {
  const folder = await folderWith({
    'a.wood': 'tree 1\n  dbh 41\n',
    'b.wood': 'tree 2\n  inspection 2015-01-01 from ground\n',
  });
  const found = JSON.parse((await folder.run('check', '--on', ON, '--as', 'json')).out)
    .findings as readonly Finding[];
  const [grave, mild] = [
    found.find(({ grade }) => grade === 'syntax')!,
    found.find(({ level }) => level === 'note')!,
  ];
  const count = SARIF_RESULTS.most + 7;
  const shown = (form: StartForm) => {
    const written: string[] = [];
    const about = { on: 0, unread: [], listFiles: () => [], rejected: [], since: undefined };
    const names = {
      siteOf: () => undefined,
      regionOf: () => 'default',
      shown: (file: string) => file,
      fromRoot: '',
    };
    const writer = form({ ...about, ...names }, text => void written.push(text));
    for (let i = 1; i < count; i++)
      writer.add([{ finding: { ...mild, tree: String(i), subject: `${i}` }, line: '' }]);
    writer.add([{ finding: grave, line: '' }]);
    const left = writer.end({ ...NOTHING_FOUND, trees: count, errors: 1, notes: count - 1 });
    return { text: written.join(''), left };
  };

  const sarif = shown(showSarif);
  const log = JSON.parse(sarif.text);
  const [run] = log.runs;
  expect(run.results).toHaveLength(SARIF_RESULTS.most);
  expect(run.results[0]).toMatchObject({ level: 'error', ruleId: 'missing-unit' });
  expect(run.invocations[0].toolExecutionNotifications[0].message.text).toContain('7 findings left out');
  expect(sarif.left).toBe('7 findings');
  expect(gzipSync(sarif.text).length).toBeLessThan(10_000_000);

  const { text, left } = shown(showMarkdown);
  expect(Buffer.byteLength(text)).toBeLessThanOrEqual(COMMENT_BYTES.most);
  const rows = text.split('\n').filter(line => /^\| (?:\*\*error\*\*|warning|note) \|/.test(line));
  expect(rows.length).toBeGreaterThan(100);
  expect(rows[0]).toContain('**error**');
  expect(text).toContain(`${count - rows.length} findings more: a comment holds no more.`);
  expect(left).toBe(`${count - rows.length} findings`);
});
