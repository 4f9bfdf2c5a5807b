import { Component, type ComponentChildren } from 'preact';
import { translate } from '../../language/catalogue.ts';

/** Prevents an error in one screen from breaking the whole page (and losing the entries waiting in it). */
export class ErrorFence extends Component<{ children: ComponentChildren }, { broken: boolean }> {
  override state = { broken: false };

  static override getDerivedStateFromError() {
    return { broken: true };
  }

  override componentDidCatch(error: unknown) {
    console.error(error);
  }

  override render({ children }: { children: ComponentChildren }, { broken }: { broken: boolean }) {
    if (!broken) return <>{children}</>;
    return (
      <div class="page narrow" role="alert">
        <p>{translate().broken}</p>
        <button type="button" onClick={() => this.setState({ broken: false })}>
          {translate().again}
        </button>
      </div>
    );
  }
}
