/** Markdown of the server as elements. Texts of inventories are escaped in it; what would load or run is left out once more. */

import DOMPurify from 'dompurify';
import { marked } from 'marked';

export const sanitized = (html: string): string =>
  DOMPurify.sanitize(html, {
    FORBID_TAGS: [
      'style',
      'form',
      'input',
      'button',
      'iframe',
      'object',
      'embed',
      'video',
      'audio',
      'source',
    ],
    FORBID_ATTR: ['style', 'srcset'],
    // Pictures are data; pages of rules are linked by the page itself.
    ALLOWED_URI_REGEXP: /^(?:data:image\/svg\+xml;base64,|data:image\/jpeg;base64,|https:|#)/i,
  });

export const htmlOf = (markdown: string): string => sanitized(marked.parse(markdown, { async: false }));
