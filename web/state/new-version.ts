/** Whether the service has a newer page than this one, which was opened before. */
import { signal } from '@preact/signals';
import { onLive } from './connection.ts';
import { renewShell } from './offline-page.ts';

export const newVersionIsHere = signal(false);

/** A service that was restarted may have been rebuilt. Call once, before the connection starts. */
export function watchForNewVersion(): void {
  let compared: string | undefined;
  onLive('snapshot', ({ epoch }) => {
    if (epoch === compared) return;
    compared = epoch;
    void compare();
  });
}

async function compare(): Promise<void> {
  try {
    const response = await fetch('/', { cache: 'no-store' });
    if (!response.ok) return;
    const assets = (await response.text()).match(/\/assets\/[\w.-]+/g) ?? [];
    newVersionIsHere.value = assets.some((path) => !document.querySelector(`[src="${path}"], [href="${path}"]`));
    if (newVersionIsHere.value) await renewShell();
  } catch {
    // Unreachable again: the next snapshot compares.
  }
}
