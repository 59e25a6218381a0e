/** The text of a page between mark-up, on one line. */
export const pageText = (page: string): string =>
  page
    .replace(/<(script|style)>.*?<\/\1>/gs, '')
    // They stand within a text.
    .replace(/<\/?(?:span|wbr)\b[^>]*>/g, '')
    .replace(/<[^>]*>/g, ' ')
    .replaceAll('&quot;', '"')
    .replaceAll('&lt;', '<')
    .replaceAll('&amp;', '&')
    .replace(/\s+/g, ' ');
