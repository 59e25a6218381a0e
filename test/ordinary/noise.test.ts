/** A gate that cries at every tree is switched off. NOISE=1 prints what is told of the samples, by rule. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { sampleFiles } from '../samples/sample-files.ts';
import { heard, noiseTable } from './noise.ts';
import { findingsOn } from './program.ts';
import { type OrdinaryTree, showTree } from './record.ts';
import { isFilledIn, isSound, withoutWork } from './signs.ts';
import { ordinaryTree, TREES } from './trees.ts';

const samples = ['street', 'fernhollow'].map(name => [name, heard(sampleFiles(name))] as const);

if (process.env.NOISE) for (const [name, of] of samples) console.log(`${name}: ${noiseTable(of)}\n`);

/** Most trees of a town have nothing the matter; more findings than a clerk looks into are no findings. */
test('of ordinary street trees at most one in five is told of', () => {
  const [, street] = samples[0]!;
  expect(street.trees).toBeGreaterThan(30);
  expect(street.told.length, noiseTable(street)).toBeLessThanOrEqual(street.trees / 5);
});

/** What is told twice, or to nobody, trains people to skip what is told once. */
test('of what is told of the sample at most two in ten is noise', () => {
  const [, court] = samples[1]!;
  const noise = court.told.filter(({ noise }) => noise);
  expect(noise.length, noiseTable(court)).toBeLessThanOrEqual(court.told.length * 0.2);
});

/** Rated or not; what a survey asks is filled in. */
test('of sound trees without work at most one in five is told of', () => {
  const sound = fc
    .sample(ordinaryTree, TREES)
    .filter(tree => isSound(tree) && isFilledIn(tree))
    .map(withoutWork);
  expect(sound.length).toBeGreaterThan(TREES / 20);
  const told = sound.flatMap(tree => findingsOn(tree).map(finding => ({ tree, finding })));
  const rules = [...new Set(told.map(({ finding }) => finding.rule))];
  const table = rules
    .map(rule => told.filter(({ finding }) => finding.rule === rule))
    .sort((a, b) => b.length - a.length)
    .map(([first, ...more]) => `${more.length + 1} ${first!.finding.rule}, as in\n${exampleOf(first!.tree)}`)
    .join('\n');
  expect(told.length, `${told.length} findings on ${sound.length} trees\n${table}`).toBeLessThanOrEqual(
    sound.length / 5,
  );
});

const exampleOf = (tree: OrdinaryTree) => showTree(tree).replace(/^/gm, '  ');
