"""Which connecting link goes on which chain: rules x parts -> verdicts with their ranges."""
