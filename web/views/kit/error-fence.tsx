import { Component, type ComponentChildren } from 'preact';
import { translate } from '../../language/catalogue.ts';

/** Keeps a fault in one screen from taking the whole page (and the entries waiting in it) down. */
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
