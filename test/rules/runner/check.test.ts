import { afterEach, describe, expect, it, vi } from 'vitest';
import { parseDate } from '../../../server/base/dates.ts';
import { buildWorkspace, readFile } from '../../../server/facts/workspace.ts';
import { checkFile, checkWorkspace, type Finding, treeContext } from '../../../server/rules/check.ts';
import { RULES, ruleNamed } from '../../../server/rules/registry.ts';

const TODAY = parseDate('2026-06-01')!;
const build = (files: Readonly<Record<string, string>>) =>
  buildWorkspace(Object.entries(files).map(([path, text]) => readFile(path, text)));
const findings = (files: Readonly<Record<string, string>>, rule?: string) =>
  checkWorkspace(build(files), TODAY).filter(found => rule === undefined || found.rule === rule);
const inOne = (text: string, rule?: string) => findings({ 'a.wood': text }, rule);
const marked = (text: string, { start, end }: Finding) => text.slice(start, end);

afterEach(() => vi.restoreAllMocks());

describe('positions', () => {
  it('are offsets in the file, lines and columns from 1 in UTF-16 code units, whatever the line ends', () => {
    const text =
      '# \u{1F333}\r\ntree 14\r\n  note "\u{1F333}\u6a39" # note\r\ntree 15 "\u{1F333}"\r\n  heigth 52 ft\r\n';
    const [found] = inOne(text, 'unknown-word');
    expect(found).toMatchObject({ line: 5, column: 3, endLine: 5, endColumn: 9, tree: '15', file: 'a.wood' });
    expect(marked(text, found!)).toBe('heigth');
  });

  it('of a report are those of its block in the file', () => {
    const text = 'site "A"\n\ntree 14\n  height 52 ft\n  height 54 ft\n';
    const [found] = inOne(text, 'duplicate-field');
    expect(marked(text, found!)).toBe('height 54 ft');
    expect(found).toMatchObject({ line: 5, column: 3, endColumn: 15 });
    expect(found!.related).toEqual([{ file: 'a.wood', line: 4, column: 3, message: 'This one counts.' }]);
  });

  it('order the findings of a file, paths those of a workspace', () => {
    const bad = 'tree 14\n  height 52\n  height 5 ft\n  height 6 ft\n  for A\n';
    const found = findings({ 'b.wood': bad, 'a.wood': bad });
    expect(found.map(({ file }) => file)).toEqual(found.map(({ file }) => file).toSorted());
    const starts = found.filter(({ file }) => file === 'a.wood').map(({ start }) => start);
    expect(starts).toEqual(starts.toSorted((a, b) => a - b));
    expect(starts.length).toBeGreaterThan(2);
  });
});

describe('mistakes of the notation', () => {
  it('are errors under their code, with remedy and fix', () => {
    const text = 'tree 14\n  heigth 52 ft\n';
    const [found] = inOne(text, 'unknown-word');
    expect(found).toMatchObject({ level: 'error', grade: 'syntax', fix: 'height', tree: '14' });
    expect(found!.remedy).not.toBe('');
  });

  it('cannot be accepted', () => {
    const found = inOne(`person RV "Ruth Varga"
tree 14
  heigth 52 ft
  accept unknown-word
    until 2027-01-01
    by RV
    because "we know"
`);
    expect(found.map(({ rule, accepted }) => [rule, accepted])).toEqual([
      ['unknown-word', undefined],
      ['accept-not-allowed', undefined],
    ]);
  });

  it('in a head keep names of its kind from being unknown', () => {
    expect(
      inOne(
        'tree 14\n  defct cavity\n    depth unseen\n  prescription R1 clean\n    for A\n',
        'unknown-reference',
      ),
    ).toEqual([]);
  });
});

describe('exceptions on record', () => {
  const tree = (accept: string) => `person RV "Ruth Varga"
tree 14
  age mature
  prescription R1 reduce
    dose 18 %
  accept season-dose${accept}
`;
  const rest = '\n    by RV\n    because "storm damage"';

  it('mark what they cover and keep its level', () => {
    const [found] = inOne(tree(` for R1\n    until 2026-06-01${rest}`), 'season-dose');
    expect(found).toMatchObject({
      level: 'error',
      accepted: { by: 'RV', until: TODAY, because: 'storm damage' },
    });
  });

  it.each([
    ['of another subject', ` for R2\n    until 2026-12-31${rest}`, 'accept-stale'],
    ['that ended', `\n    until 2026-05-31${rest}`, 'accept-expired'],
    ['without an end', rest, 'accept-incomplete'],
    ['without a reason', '\n    until 2026-12-31\n    by RV', 'missing-reason'],
  ])('%s cover nothing, and are reported', (_title, accept, rule) => {
    const found = inOne(tree(accept));
    expect(found.find(one => one.rule === 'season-dose')?.accepted).toBeUndefined();
    expect(
      found.map(one => one.rule).filter(name => name.startsWith('accept') || name === 'missing-reason'),
    ).toEqual([rule]);
  });

  it('do not cover what the law forbids', () => {
    const legal = RULES.find(rule => !rule.acceptable && rule.group !== 'records');
    expect(legal).toBeDefined();
    const found = inOne(tree('').replace('season-dose', legal!.name), 'accept-not-allowed');
    expect(found.map(({ message }) => message)).toEqual([
      `${legal!.name} reports a matter of law or of safety, for which no exception is allowed.`,
    ]);
  });
});

describe('severities', () => {
  const tree = 'tree 14\n  age mature\n  prescription R1 reduce\n    dose 18 %\n';
  const practice = (level: string, rule = 'season-dose') =>
    `practice "P"\n  severity ${rule} ${level}\n    because "trial"\n`;

  it('change the level of a rule below their folder only', () => {
    const found = findings({ 'grove/a.wood': practice('note') + tree, 'b.wood': tree }, 'season-dose');
    expect(found.map(({ file, level }) => [file, level])).toEqual([
      ['b.wood', 'error'],
      ['grove/a.wood', 'note'],
    ]);
  });

  it('off silences a rule', () => {
    expect(inOne(practice('off') + tree, 'season-dose')).toEqual([]);
    const twice = 'tree 1\ntree 1\n';
    expect(inOne(twice, 'duplicate-tag')).toHaveLength(1);
    expect(inOne(practice('off', 'duplicate-tag') + twice, 'duplicate-tag')).toEqual([]);
  });
});

describe('beyond one tree', () => {
  it('tags are unique in a site, over its files and not over sites', () => {
    const found = findings(
      {
        'site.wood': 'site "Fernhollow Court"\n',
        'a.wood': 'tree 14\n',
        'b.wood': '# lawn\ntree 14\n',
        'grove/site.wood': 'site "Old grove"\ntree 14\n',
      },
      'duplicate-tag',
    );
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({
      file: 'b.wood',
      line: 2,
      tree: '14',
      related: [{ file: 'a.wood', line: 1, column: 1 }],
    });
  });

  it('persons are known across files, and unique', () => {
    const files = {
      'people.wood': 'person RV "Ruth Varga"\n',
      'trees.wood': 'tree 14\n  inspection 2026-03-14 from ground\n    by RV\n',
    };
    expect(findings(files, 'unknown-reference')).toEqual([]);
    const again = findings({ ...files, 'zoo.wood': 'person RV "Rolf Vance"\n' }, 'duplicate-name');
    expect(again.map(({ file, related }) => [file, related![0]!.file])).toEqual([
      ['zoo.wood', 'people.wood'],
    ]);
  });

  it('an unknown name offers the nearest one', () => {
    const text = 'person RV "Ruth Varga"\ntree 14\n  inspection 2026-03-14 from ground\n    by RW\n';
    const [found] = inOne(text, 'unknown-reference');
    expect(marked(text, found!)).toBe('RW');
    expect(found).toMatchObject({ subject: 'RW', fix: 'RV' });
    expect(found!.remedy).toContain('RV');
  });
});

describe('a rule that throws', () => {
  it('becomes one finding, and the others go on', () => {
    vi.spyOn(ruleNamed('season-dose')!, 'check').mockImplementation(() => {
      throw new Error('no such thing');
    });
    const found = inOne(
      'tree 14\n  height 5 ft\n  height 6 ft\n  age mature\n  prescription R1 reduce\n    dose 18 %\n',
    );
    const [failed, ...more] = found.filter(({ rule }) => rule === 'internal-error');
    expect(more).toEqual([]);
    expect(failed).toMatchObject({ level: 'error', subject: 'season-dose', line: 1, tree: '14' });
    expect(failed!.message).toContain('no such thing');
    expect(found.map(({ rule }) => rule)).toContain('duplicate-field');
  });

  it('over the workspace, too', () => {
    vi.spyOn(ruleNamed('duplicate-tag')!, 'checkWorkspace').mockImplementation(() => {
      throw new Error('no such thing');
    });
    const found = inOne('tree 14\ntree 14\nperson RV "A"\nperson RV "B"\n');
    expect(found.map(({ rule, subject }) => [rule, subject])).toEqual([
      ['internal-error', 'duplicate-tag'],
      ['duplicate-name', 'RV'],
    ]);
  });
});

describe('a tree that did not change', () => {
  const text = 'tree 14\n  age mature\n  prescription R1 reduce\n    dose 18 %\n';

  it('is not looked at again, and its findings move with it', () => {
    const rule = vi.spyOn(ruleNamed('season-dose')!, 'check');
    const before = buildWorkspace([readFile('a.wood', text)]);
    const first = checkFile(before, before.files.get('a.wood')!, TODAY);
    const moved = readFile('a.wood', `# lawn\n${text}`, before.files.get('a.wood'));
    const after = buildWorkspace([moved], before);
    const second = checkFile(after, moved, TODAY);
    expect(rule).toHaveBeenCalledTimes(1);
    expect(second.map(({ rule: name, line }) => [name, line - 1])).toEqual(
      first.map(({ rule: name, line }) => [name, line]),
    );
  });

  it('is looked at again on another day and under other settings', () => {
    const file = readFile('a.wood', text);
    const before = buildWorkspace([file]);
    expect(checkFile(before, file, TODAY).some(({ rule }) => rule === 'season-dose')).toBe(true);
    const rule = vi.spyOn(ruleNamed('season-dose')!, 'check');
    checkFile(before, file, TODAY + 1);
    expect(rule).toHaveBeenCalledTimes(1);
    const practice = readFile('p.wood', 'practice "P"\n  limit dose-mature 20 %\n    because "trial"\n');
    const after = buildWorkspace([file, practice], before);
    expect(checkFile(after, file, TODAY).some(({ rule: name }) => name === 'season-dose')).toBe(false);
  });
});

it('a rule sees a tree with what applies to it', () => {
  const workspace = build({ 'a.wood': 'site "A"\n  region US-OR\nperson RV "Ruth Varga"\ntree 14\n' });
  const file = workspace.files.get('a.wood')!;
  const context = treeContext(workspace, file, file.trees[0]!.fact, TODAY);
  expect(context.site?.name.value).toBe('A');
  expect(context.settings.region.code).toBe('US-OR');
  expect(context.person('RV')?.name.value).toBe('Ruth Varga');
  expect(context.crew('RV')).toBeUndefined();
});
