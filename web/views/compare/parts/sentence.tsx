/**
 * Sentences of a comparison, made on this page from their codes: in its language, with its names, and with emphasised
 * numbers.
 */
import type { VNode } from 'preact';
import type { Message } from '../../../../shared/contract/results.ts';
import { translateRemark } from '../../../language/catalogue.ts';
import { MarkedUpText } from '../../kit/marked-up-text.tsx';

export interface Names {
  readonly a: string;
  readonly b: string;
}

/** The sentence as plain text. */
export function writtenText({ code, params }: Message, names: Names, more: Message['params'] = {}): string {
  const named = Object.entries(params).map(([key, value]) => {
    const isSide = ['side', 'first', 'second'].includes(key) && (value === 'a' || value === 'b');
    return [key, isSide ? names[value] : value] as const;
  });
  return translateRemark({ code, params: { ...Object.fromEntries(named), ...more } });
}

export function Sentence({ message, names }: { message: Message; names: Names }): VNode {
  return <MarkedUpText text={writtenText(message, names, { strong: 1 })} />;
}
