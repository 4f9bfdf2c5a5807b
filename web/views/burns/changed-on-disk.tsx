/** The warning that data of a burn changed on the disk, and what to do. */
import type { VNode } from 'preact';
import type { DiskChange } from '../../../shared/contract/burns.ts';
import { translateResult } from '../../language/catalogue.ts';

export function ChangedOnDisk({ of }: { of: readonly DiskChange[] }): VNode | null {
  const words = translateResult().changedOnDisk;
  if (of.length === 0) return null;
  return (
    <div role="alert">
      {of.map((change) => (
        <p key={change} class="problem">
          <strong>{words[change]}</strong>
        </p>
      ))}
      <p>{words.help}</p>
    </div>
  );
}
