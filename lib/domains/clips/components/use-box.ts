import { useLayoutEffect, useState, type RefObject } from "react";
import type { Size } from "../rules";

/** Size of an element in CSS pixels, kept up to date; null until it is known. */
export function useBox(element: RefObject<Element | null>): Size | null {
  const [box, setBox] = useState<Size | null>(null);
  useLayoutEffect(() => {
    const target = element.current;
    if (!target) return;
    const measure = () => {
      const width = target.clientWidth;
      const height = target.clientHeight;
      if (width > 0 && height > 0) setBox((now) => (now?.width === width && now.height === height ? now : { width, height }));
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(target);
    return () => observer.disconnect();
  }, [element]);
  return box;
}
