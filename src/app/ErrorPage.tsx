import { Component, type ComponentChildren } from 'preact';
import { Trouble, type Way } from '#app/Trouble.tsx';

interface Props {
  children: ComponentChildren;
  /** Looks through the logbook before the app starts again: a damaged record may be the reason. */
  check: () => Promise<void>;
  /** Another way on when that look itself fails; null: there is none. */
  wayAround: () => Promise<Way | null>;
}

/** Catches what no screen expected and says so; what was logged is on disk already. */
export class ErrorPage extends Component<Props, { failure: unknown; way: Way | null }> {
  override state = { failure: null as unknown, way: null as Way | null };

  static override getDerivedStateFromError(failure: unknown) {
    return { failure };
  }

  override componentDidCatch() {
    void this.props.wayAround().then((way) => this.setState({ way }));
  }

  override render() {
    const { way } = this.state;
    if (!this.state.failure) return <>{this.props.children}</>;
    return (
      <Trouble
        title="Something went wrong"
        text="Everything that ticked is stored. Start again and it will be there."
        detail={String(this.state.failure)}
        first={this.props.check}
        {...(way ? { way } : {})}
      />
    );
  }
}
