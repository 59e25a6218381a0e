import { expect, test } from 'vitest';
import { attempt, Fault, notComputed, reasonIn, showSound } from '../../server/assess/not-computed.ts';

const place = (line: number) => ({ file: 'a.wood', line, what: `tree ${line}` });
const all = [1, 2, 3].map(of => ({ place: place(of), of }));

test('a fault says its reason on one line, cut where it is long', () => {
  const fault = attempt(() => {
    throw new RangeError('not an\n  interval');
  });
  expect(fault).toBeInstanceOf(Fault);
  expect(notComputed(place(7), fault as unknown as Fault).message).toBe(
    'line 7: tree 7 was not computed: not an interval (a mistake in the program, not in the record)',
  );
  expect(reasonIn(new Error('x'.repeat(300)))).toBe(`${'x'.repeat(200)}…`);
  expect(reasonIn('')).toBe('no reason is given');
  expect(attempt(() => 4)).toBe(4);
});

test('what fails alone is left out and named; the others are shown together', async () => {
  const { shown, left } = await showSound(all, some => {
    if (some.includes(2)) throw new Error('two');
    return some.join(' ');
  });
  expect(shown).toBe('1 3');
  expect(left.map(({ message }) => message)).toEqual([
    expect.stringContaining('line 2: tree 2 was not computed: two'),
  ]);
});

test('what fails for none alone fails', async () => {
  await expect(
    showSound(all, some => {
      if (some.length > 1) throw new Error('together');
      return some;
    }),
  ).rejects.toThrow('together');
});
