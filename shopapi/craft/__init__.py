"""The trade's arithmetic: plain values in, plain values out, every number traceable to its source."""
