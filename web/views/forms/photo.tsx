/**
 * Choosing or taking a photo, and showing one. The service saves it without the place and time that a phone writes into
 * it.
 */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useId, useLayoutEffect, useRef } from 'preact/hooks';
import { translate } from '../../language/catalogue.ts';
import { linkTo } from '../../requests/http.ts';
import { call } from '../../requests/service.ts';
import { sentenceFor } from '../kit/use-load.ts';

/** A phone's photo over a weak radio link. */
const LONGEST_MS = 120_000;

export function PhotoField({
  photo,
  opensAtOnce = false,
  onPhoto,
}: {
  photo?: string | undefined;
  /** Opens the camera or the file chooser of the device without another tap, where the browser permits it. */
  opensAtOnce?: boolean;
  onPhoto: (name: string) => void;
}): VNode {
  const words = translate().photo;
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  // right after the tap that created this field: a browser opens its chooser only for a tap
  useLayoutEffect(() => {
    if (opensAtOnce && navigator.userActivation?.isActive) input.current?.click();
  }, []);
  const isSending = useSignal(false);
  const problem = useSignal<string | undefined>(undefined);
  const send = async (file: File | undefined) => {
    if (!file) return;
    isSending.value = true;
    problem.value = undefined;
    try {
      onPhoto((await call('POST /photos', { body: file, timeoutMs: LONGEST_MS })).photo);
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
        ref={input}
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
  const file = linkTo('GET /photos/:name', { params: { name } });
  return (
    <a class="photo" href={file} target="_blank" rel="noreferrer">
      <img src={file} alt={translate().photo.alt} loading="lazy" />
    </a>
  );
}
