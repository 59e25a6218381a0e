import htm from 'htm';
import { type ComponentChild, h } from 'preact';

export const html = htm.bind(h) as (
  strings: TemplateStringsArray,
  ...values: readonly unknown[]
) => ComponentChild;
