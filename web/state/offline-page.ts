/**
 * Keeps the page itself on this device, where the browser allows it: over https with a certificate that it trusts, and on the bench
 * machine. Then the page opens while the service is away, and can be put on a home screen.
 */
import { signal } from '@preact/signals';

/** Whether this page would open without the service. */
export const isInstalled = signal(false);
/** The browser could keep it, but did not: for want of a certificate that it trusts. */
export const shellWasRefused = signal(false);

/** Call once, when nothing else is to do: everything is fetched. */
export async function saveShell(): Promise<void> {
  if (!('serviceWorker' in navigator)) return;
  try {
    await navigator.serviceWorker.register('/shell-worker.js');
    await navigator.serviceWorker.ready;
    isInstalled.value = true;
  } catch {
    isInstalled.value = navigator.serviceWorker.controller !== null;
    shellWasRefused.value = !isInstalled.value;
  }
}

/** Let the browser see whether there is a newer page to keep. */
export async function renewShell(): Promise<void> {
  if (!('serviceWorker' in navigator)) return;
  const stored = await navigator.serviceWorker.getRegistration();
  await stored?.update();
}
