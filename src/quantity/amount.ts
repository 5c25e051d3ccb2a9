declare const dimension: unique symbol;

/** In the scenario's mass unit. */
export type Mass = number & { readonly [dimension]: 'mass' };

/** In the scenario's currency. */
export type Money = number & { readonly [dimension]: 'money' };

/** Currency per mass unit. */
export type MoneyByMass = number & { readonly [dimension]: 'money by mass' };

export type Amount = Mass | Money | MoneyByMass;

/** A plain number as an amount of the dimension that the caller knows it to have. */
export function amount<A extends Amount>(value: number): A {
  return value as A;
}

/** The sum of two amounts of one dimension: a mass and money do not add. */
export function plus<A extends Amount>(a: A, b: NoInfer<A>): A {
  return amount(a + b);
}

/** What a mass comes to at a price by mass. */
export function priced(mass: Mass, price: MoneyByMass): Money {
  return amount(mass * price);
}
