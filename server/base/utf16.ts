/** By the byte order mark, or by zeros between the first letters, since inventories begin with ASCII. */
export function isUtf16([first, second, third, fourth]: Uint8Array): boolean {
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff)) return true;
  return (
    (second === 0 && fourth === 0 && !!first && !!third) ||
    (first === 0 && third === 0 && !!second && !!fourth)
  );
}
