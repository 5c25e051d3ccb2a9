import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import { expect } from 'vitest';
import type { MediaType, OpenApiDocument, Operation } from '../../src/web/api/openapi.js';

/** Checks responses against an OpenAPI document. */
export class Documented {
  private readonly ajv = new Ajv2020({ strict: false, allErrors: true });
  private readonly validators = new Map<string, ValidateFunction>();

  constructor(readonly document: OpenApiDocument) {
    addFormats.default(this.ajv);
    this.ajv.addSchema({ $id: 'openapi', components: document.components });
  }

  /** The operation that a request is for; undefined where the document has none. */
  operationOf(method: string, path: string): Operation | undefined {
    const parts = path.split('/');
    const isMatch = (template: string) => {
      const own = template.split('/');
      return own.length === parts.length && own.every((part, i) => part.startsWith('{') || part === parts[i]);
    };
    const templates = Object.keys(this.document.paths).filter(isMatch);
    const exact = templates.sort((a, b) => a.split('{').length - b.split('{').length)[0];
    return exact === undefined ? undefined : this.document.paths[exact][method.toLowerCase()];
  }

  /** The document says that this may be answered, and the body has the shape that it gives. */
  async expectDocumented(method: string, path: string, response: Response): Promise<void> {
    const type = response.headers.get('Content-Type') ?? undefined;
    const operation = this.operationOf(method, path);
    if (operation === undefined) return this.expectProblem(response);
    const documented = operation.responses[String(response.status)];
    const place = `${method} ${path} ${response.status}`;
    if (documented === undefined && (response.status === 405 || response.status === 404))
      return this.expectProblem(response);
    expect(documented, `${place} is not documented`).toBeDefined();
    if (documented.content === undefined) return expect(await response.clone().text(), place).toBe('');
    expect(Object.keys(documented.content), place).toContain(type);
    const media: MediaType = documented.content[type ?? ''];
    if (media.schema !== undefined) this.expectShape(media.schema, await response.clone().json(), place);
  }

  async expectProblem(response: Response): Promise<void> {
    expect(response.headers.get('Content-Type')).toBe('application/problem+json');
    const body = (await response.clone().json()) as { status: number };
    this.expectShape({ $ref: '#/components/schemas/problemDetails' }, body, 'problem details');
    expect(body.status).toBe(response.status);
  }

  expectShape(schema: object, value: unknown, place: string): void {
    const key = JSON.stringify(schema);
    const validate =
      this.validators.get(key) ??
      this.ajv.compile(JSON.parse(key.replaceAll('"#/components', '"openapi#/components')));
    this.validators.set(key, validate);
    const isValid = validate(value);
    expect(isValid, `${place}: ${JSON.stringify(validate.errors?.slice(0, 5))}`).toBe(true);
  }
}
