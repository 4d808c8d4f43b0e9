/** What lays a graph out, and the form it takes and gives. */
import type { Point } from './scene.ts';

/** Lays a graph out in the form that elkjs has; in this process, in a worker, or in a test. */
export interface LayoutEngine {
  layout(graph: EngineNode): Promise<EngineNode>;
}

export interface EngineNode {
  id: string;
  x?: number;
  y?: number;
  width?: number;
  height?: number;
  layoutOptions?: Record<string, string>;
  labels?: EngineLabel[];
  ports?: {
    id: string;
    x?: number;
    y?: number;
    width?: number;
    height?: number;
    layoutOptions?: Record<string, string>;
  }[];
  children?: EngineNode[];
  edges?: EngineEdge[];
}

export interface EngineLabel {
  text?: string;
  x?: number;
  y?: number;
  width?: number;
  height?: number;
  layoutOptions?: Record<string, string>;
}

export interface EngineEdge {
  id: string;
  sources: string[];
  targets: string[];
  labels?: EngineLabel[];
  layoutOptions?: Record<string, string>;
  sections?: { id: string; startPoint: Point; endPoint: Point; bendPoints?: Point[] }[];
}
