/** Hollows as people write them down, drawn. */

/** Mulberry32: the same draws in every run. */
export function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export const POINTS = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'] as const;

/** A hollow of which each reading is there or not, exact or not, possible or not. */
export function anyHollow(random: () => number, id: string): readonly string[] {
  const whole = (from: number, to: number) => Math.floor(from + random() * (to - from + 1));
  const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)]!;
  const length = (from: number, to: number) => {
    const [a, b] = [whole(from, to), whole(from, to)];
    const unit = pick(['in', 'cm']);
    const at = (inches: number) => (unit === 'in' ? inches : Math.round(2.54 * inches));
    return pick([
      `${at(a)} ${unit}`,
      `~${at(a)} ${unit}`,
      `${at(Math.min(a, b))}..${at(Math.max(a, b) + 1)} ${unit}`,
      `> ${at(a)} ${unit}`,
      `< ${at(a + 1)} ${unit}`,
      'unseen',
    ]);
  };
  const size = () => pick(['26 in', '~30 in', '24..32 in', '30 x 24 in', '60 cm', '~70 x 66 cm']);
  const start = whole(0, 7);
  const walls = Array.from(
    { length: whole(0, 5) },
    (_, i) => `${length(0, 16)} at ${POINTS[(start + i) % 8]}`,
  );
  const facing = random() < 0.8 ? `, facing ${pick(POINTS)}` : '';
  return [
    `defect ${id} ${pick(['cavity', 'decay'])}`,
    `  on trunk at ${whole(1, 30)} ft${facing}`,
    `  diameter ${size()}`,
    ...(random() < 0.3 ? [`  bark ${pick(['0 in', '0.5 in', '1..2 cm'])}`] : []),
    ...(random() < 0.7 ? [`  opening ${pick(['closed', `${length(0, 24)} wide`])}`] : []),
    ...(random() < 0.6 ? [`  depth ${length(0, 34)}`] : []),
    ...(walls.length > 0
      ? [`  wall ${random() < 0.3 ? walls[0]!.replace(/ at .*/, '') : walls.join(', ')}`]
      : []),
  ];
}
