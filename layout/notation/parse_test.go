package notation

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestSampleKindsCompile(t *testing.T) {
	require.NoError(t, CheckKinds(sampleKinds))
	require.NoError(t, CheckKinds(Shared()))
}
