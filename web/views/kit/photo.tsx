/** Choosing or taking a photo, and showing one. The service keeps it without the place and time that a phone writes into it. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useId } from 'preact/hooks';
import { say } from '../../state/catalogue.ts';
import { call } from '../../state/service.ts';
import { sentenceFor } from './use-load.ts';

/** A phone's photo over a weak radio link. */
const LONGEST_MS = 120_000;

export function PhotoField({ photo, onPhoto }: { photo?: string | undefined; onPhoto: (name: string) => void }): VNode {
  const words = say().photo;
  const id = useId();
  const isSending = useSignal(false);
  const problem = useSignal<string | undefined>(undefined);
  const send = async (file: File | undefined) => {
    if (!file) return;
    isSending.value = true;
    problem.value = undefined;
    try {
      onPhoto((await call<{ photo: string }>('POST', '/photos', file, LONGEST_MS)).photo);
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
    isSending.value = false;
  };
  return (
    <div class={problem.value ? 'field wrong' : 'field'}>
      <label for={id}>{words.choose}</label>
      <input
        id={id}
        type="file"
        accept="image/jpeg,image/png,image/webp"
        disabled={isSending.value}
        aria-describedby={`${id}-hint`}
        onChange={(event) => void send(event.currentTarget.files?.[0])}
      />
      <p class="hint" id={`${id}-hint`}>
        {isSending.value ? words.sending : words.hint}
      </p>
      <p class="problem" role="alert">
        {problem.value}
      </p>
      {photo && <Photo name={photo} />}
    </div>
  );
}

export function Photo({ name }: { name: string }): VNode {
  return (
    <a class="photo" href={`/api/photos/${name}`} target="_blank" rel="noreferrer">
      <img src={`/api/photos/${name}`} alt={say().photo.alt} loading="lazy" />
    </a>
  );
}
