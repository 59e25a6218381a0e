import { writeFileSync } from 'node:fs';
import fc from 'fast-check';
import { test } from 'vitest';
import { parseDate } from '../../grammar/dates.ts';
import { buildWorkspace, readFile, withPhotos } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';
import { examplePhotos } from '../../server/rules/example-photos.ts';
import { RULES } from '../../server/rules/registry.ts';
import { sampleFiles } from '../samples/sample-files.ts';
import { ordinary } from './ordinary.ts';

const FIG =
  /\d{4}-\d\d-\d\d(?:\.\.\d{4}-\d\d-\d\d)?|\d+(?:\.\d+)?(?:\.\.\d+(?:\.\d+)?)? (?:in|ft|mm|cm|m|%|lb|kg|deg|days?|years?|months?)\b|\b0\.\d+\b/g;
test('x', () => {
  const by = new Map<string, string>();
  const invs = [
    ...fc.sample(ordinary, 2000),
    ...RULES.flatMap(r =>
      r.examples.map(e => ({
        files: [{ path: 'e.wood', text: e.text }],
        photos: examplePhotos(e),
        today: parseDate(e.on ?? '2026-06-01')!,
      })),
    ),
    { files: sampleFiles('fernhollow'), today: parseDate('2026-06-01')!, photos: undefined },
  ];
  for (const inv of invs as any[]) {
    let ws = buildWorkspace(inv.files.map(({ path, text }: any) => readFile(path, text)));
    if (inv.photos) ws = withPhotos(ws, inv.photos);
    for (const one of checkWorkspace(ws, inv.today)) {
      if (one.grade === 'syntax') continue;
      const lines = (one.advice ?? []).flatMap(a => [a.head ?? '', ...a.lines]).join('\n');
      for (const fig of one.remedy.match(FIG) ?? [])
        if (!lines.includes(fig)) {
          const k = one.rule + ' ' + one.remedy.replace(/\d+/g, '#');
          if (!by.has(k)) by.set(k, `${one.rule} [${fig}] ${one.remedy} || ${lines}`);
        }
    }
  }
  writeFileSync('/tmp/w/adv-try/figs.txt', [...by.values()].sort().join('\n'));
}, 600000);
