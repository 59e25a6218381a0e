/** The bytes as a `data:` URI (RFC 2397), in base64. */
export function dataUri(type: string, bytes: Uint8Array): string {
  let binary = '';
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return `data:${type};base64,${btoa(binary)}`;
}

export const svgUri = (svg: string): string => dataUri('image/svg+xml', new TextEncoder().encode(svg));
