import { Component, type ComponentChildren } from 'preact';
import { Trouble } from '#app/Trouble.tsx';

interface Props {
  children: ComponentChildren;
  /** Looks through the logbook before the app starts again: a damaged record may be the reason. */
  check: () => Promise<void>;
}

/** Catches what no screen expected and says so; what was logged is on disk already. */
export class ErrorPage extends Component<Props, { failure: unknown }> {
  override state = { failure: null as unknown };

  static override getDerivedStateFromError(failure: unknown) {
    return { failure };
  }

  override render() {
    if (!this.state.failure) return <>{this.props.children}</>;
    return (
      <Trouble
        title="Something went wrong"
        text="Everything that ticked is stored. Start again and it will be there."
        detail={String(this.state.failure)}
        first={this.props.check}
      />
    );
  }
}
