// What `inspect --page` lays into the page: the listing of the part.
import type { Arrays } from "./solid";

export interface CadFace {
  id: number;
  body: number;
  kind: string;
  area_mm2: number;
  name: string;
}

export interface Hole {
  id: number;
  diameter_mm: number;
  depth_mm: number;
  through: boolean;
  wall: number[];
  floor: number | null;
  seat: number | null;
}

export interface Wetted {
  volume_mm3: number;
  faces: number[];
}

export interface PartFaces {
  faces: string[];
  arrays: Arrays;
  geometry: {
    file: string;
    bodies: { id: number; name: string }[];
    faces: CadFace[];
    holes: Hole[];
    closed_cavities: Wetted[];
    wetted: Wetted | null;
    warnings: string[];
  };
}
