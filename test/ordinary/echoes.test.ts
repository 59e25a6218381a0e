import { expect, test } from 'vitest';
import { echoesOfSamples } from './echoes.ts';

/** Whoever mistypes a distance is told of the line; that no distance is stated is not true, and buries it. */
test('a field with a mistake gives that mistake and no echo', () => {
  const echoes = echoesOfSamples();
  const kinds = new Map<string, { count: number; example: string }>();
  for (const { rule, field, damaged, message } of echoes) {
    const kind = `${rule}, ${field}`;
    const known = kinds.get(kind);
    if (known) known.count++;
    else kinds.set(kind, { count: 1, example: `${damaged}: ${message}` });
  }
  const told = [...kinds]
    .sort(([, a], [, b]) => b.count - a.count)
    .map(([kind, { count, example }]) => `${count} ${kind}: ${example}`);
  expect(told).toEqual([]);
}, 0);
