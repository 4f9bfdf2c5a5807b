import type { VNode } from 'preact';

/** A sentence of the catalogue with its emphasis: `*strong*`, `~quiet~`. A strong stretch named in `links` leads there. */
export function MarkedUpText({ text, links = {} }: { text: string; links?: Readonly<Record<string, string>> }): VNode {
  return (
    <>
      {text.split(/(\*[^*]+\*|~[^~]+~)/).map((part) => {
        const inner = part.slice(1, -1);
        const href = links[inner];
        if (part.startsWith('*') && href !== undefined)
          return (
            <a href={href}>
              <b>{inner}</b>
            </a>
          );
        if (part.startsWith('*')) return <b>{inner}</b>;
        if (part.startsWith('~')) return <span class="quiet">{inner}</span>;
        return part;
      })}
    </>
  );
}

/** The same sentence as plain text, for labels and screen readers. */
export function plain(text: string): string {
  return text.replace(/[*~]/g, '');
}
