/**
 * `@property` and `@state` of lit as this project uses them: on fields and accessors of classes, the way of TypeScript's
 * `experimentalDecorators`. Lit's own also serve decorators of the standard.
 */
import type { PropertyDeclaration, ReactiveElement } from 'lit';

type Decorator = (prototype: object, name: string) => PropertyDescriptor | undefined;

export function property(options?: PropertyDeclaration): Decorator {
  return (prototype, name) => {
    const own = Object.hasOwn(prototype, name);
    (prototype.constructor as typeof ReactiveElement).createProperty(name, options);
    // Around an accessor lit has put its own, which must not be overwritten by the one that was written.
    return own ? Object.getOwnPropertyDescriptor(prototype, name) : undefined;
  };
}

export function state(): Decorator {
  return property({ state: true });
}
