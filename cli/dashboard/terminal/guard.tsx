/** Catches what a component throws, so that the terminal can be given back before anything is said about it. */

import { Component, type ReactNode } from 'react';

interface Props {
  readonly failed: (error: Error) => void;
  readonly children: ReactNode;
}

export class Guard extends Component<Props, { readonly broken: boolean }> {
  override state = { broken: false };

  static getDerivedStateFromError(): { broken: boolean } {
    return { broken: true };
  }

  override componentDidCatch(error: Error): void {
    this.props.failed(error);
  }

  override render(): ReactNode {
    return this.state.broken ? null : this.props.children;
  }
}
