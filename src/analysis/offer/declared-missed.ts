/**
 * Contracts whose months must be told apart by whole numbers: the program would declare tonnes missed that it
 * delivers. The question is to be asked again of a program that tells them.
 */
export class DeclaredMissed extends Error {
  override readonly name = 'DeclaredMissed';
  constructor(readonly contracts: ReadonlySet<string>) {
    super('tonnes declared missed are delivered');
  }
}
