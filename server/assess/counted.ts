/** How many of what, for people: `1 tree`, `3 trees`. */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;
