import { writeFileSync } from 'node:fs';
import fc from 'fast-check';
import { test } from 'vitest';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';
import { followAll, told } from './follow.ts';
import { ordinary } from './ordinary.ts';

test('x', () => {
  const out: string[] = [];
  let n = 0,
    f = 0,
    syn = 0;
  for (const inv of fc.sample(ordinary, Number(process.env.N ?? 300))) {
    for (const one of checkWorkspace(
      buildWorkspace(inv.files.map(({ path, text }) => readFile(path, text))),
      inv.today,
    ))
      if (one.grade === 'syntax') {
        syn++;
        out.push('SYNTAX ' + one.message + inv.files.at(-1)!.text);
      }
    for (const one of followAll(inv)) {
      n++;
      if (one.faults.length) {
        f++;
        out.push(
          told(one) +
            '\n' +
            (process.env.TEXT
              ? inv.files
                  .slice(1)
                  .map(x => x.text)
                  .join('')
              : ''),
        );
      }
    }
  }
  writeFileSync('/tmp/w/adv-try/many.txt', `${n} followed, ${f} failed, ${syn} syntax\n` + out.join('\n'));
}, 600000);
